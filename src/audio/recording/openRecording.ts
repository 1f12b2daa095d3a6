/** A recording into the meter, analysed at once or played. */

import type { AudioDoor } from '../link';
import { openPlayback } from '../playback';
import { openAnalysis } from './analyse';
import { audibleOf, toAudioBuffer } from './audioBuffer';
import { loadRecording } from './loadRecording';

export const openRecording: AudioDoor['openRecording'] = async (files, mode, settings, events) => {
  const recording = await loadRecording(files);
  if (mode === 'analyse') return openAnalysis(recording, settings, events);
  const buffer = await toAudioBuffer(recording);
  const audible = audibleOf(buffer, recording.gaps);
  return openPlayback({ label: recording.label, buffer, audible, loop: false }, settings, events);
};
