/** Two channels on their way into the browser's audio. */
import type { Gap } from '../../files/soundness';
import { problem } from '../problems';

export interface Recording {
  /** file names, and whatever the person should know about how they were read */
  label: string;
  /** Hz */
  sampleRate: number;
  frames: number;
  /** where there is no sound in it: the meter is told by samples that are no numbers, and nobody hears them */
  gaps: readonly Gap[];
  /** Fill both with frames from `fromFrame` on; returns the frames written. */
  readInto(fromFrame: number, a: Float32Array, b: Float32Array): number;
}

/** frames decoded at a time: a slice costs a few ms, so the screen stays alive */
const SLICE = 1 << 19;

/**
 * The recording as an AudioBuffer, decoded in slices with a pause after each.
 * @throws ProblemError when it is longer than the browser can hold, or of a rate that it doesn't take
 */
export async function toAudioBuffer(recording: Recording): Promise<AudioBuffer> {
  const { frames, sampleRate } = recording;
  let buffer: AudioBuffer;
  try {
    buffer = new AudioBuffer({ numberOfChannels: 2, length: frames, sampleRate });
  } catch {
    // what every browser must take: 8 to 96 kHz (Web Audio API, BaseAudioContext)
    const kind = sampleRate < 8000 || sampleRate > 96000 ? `its rate of ${sampleRate} Hz` : 'its length';
    const text = `This browser can’t load the recording because of ${kind}; convert it or cut it shorter, then try again.`;
    throw problem('unsupported-file', text);
  }
  const a = new Float32Array(Math.min(SLICE, frames));
  const b = new Float32Array(a.length);
  for (let at = 0; at < frames; ) {
    const got = recording.readInto(at, a, b);
    if (got === 0) break;
    buffer.copyToChannel(a.subarray(0, got), 0, at);
    buffer.copyToChannel(b.subarray(0, got), 1, at);
    at += got;
    await new Promise((resolve) => setTimeout(resolve, 0));
  }
  return buffer;
}

/** What a person may hear of it: silence where there is no sound. The buffer itself where all of it is. */
export function audibleOf(buffer: AudioBuffer, gaps: readonly Gap[]): AudioBuffer {
  if (gaps.length === 0) return buffer;
  const { numberOfChannels, length, sampleRate } = buffer;
  const audible = new AudioBuffer({ numberOfChannels, length, sampleRate });
  for (let channel = 0; channel < numberOfChannels; channel++) {
    audible.copyToChannel(buffer.getChannelData(channel), channel);
    const samples = audible.getChannelData(channel);
    for (const { fromFrame, frames } of gaps) samples.fill(0, fromFrame, fromFrame + frames);
  }
  return audible;
}
