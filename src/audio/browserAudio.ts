/** The audio room's door: everything that the rest of the page may open. */
import { openAnalysis } from './analyse';
import { listInputs, openInterface } from './interfaceInput';
import type { AudioDoor } from './link';
import { openPlayback } from './playback';
import { loadRecording, toAudioBuffer } from './recording';
import { listScenes, loadScene } from './scenes';

export const browserAudio: AudioDoor = {
  listInputs,
  openInterface,
  async openRecording(files, mode, settings, events) {
    const recording = await loadRecording(files);
    if (mode === 'analyse') return openAnalysis(recording, settings, events);
    const buffer = await toAudioBuffer(recording);
    return openPlayback({ label: recording.label, buffer, loop: false }, settings, events);
  },
  listScenes,
  async openScene(scene, settings, events) {
    const buffer = await loadScene(scene);
    return openPlayback({ label: scene.title, buffer, loop: true }, settings, events);
  },
};
