/** What is read, of each kind of source, as something to listen to. */
import type { PairSound } from '../../listen/version';
import { cutBuffer, pairSound, stretchAround } from './stretchOf';

/** What goes round and round, all of it up to 20 s. @param hitsSeconds of a stream that began anywhere in it */
export function loopedSound(buffer: AudioBuffer, swapped: boolean, hitsSeconds: readonly number[]): PairSound {
  const { sampleRate, length, duration } = buffer;
  const [from, to] = stretchAround([], sampleRate, length);
  const heard = { ...cutBuffer(buffer, from, to), sampleRate, swapped, offsetSamples: 0, isNewest: false };
  return pairSound(heard, { ofStream: hitsSeconds, periodSeconds: duration });
}

/** What is played once, as far as it has come; nothing is known of where the stream of the hits began. */
export function playedSound(
  buffer: AudioBuffer,
  swapped: boolean,
  hitsSeconds: readonly number[],
  playedSeconds: number,
): PairSound {
  const { sampleRate } = buffer;
  const frames = Math.min(buffer.length, Math.round(playedSeconds * sampleRate));
  const [from, to] = stretchAround([playedSeconds], sampleRate, frames);
  const heard = { ...cutBuffer(buffer, from, to), sampleRate, swapped, offsetSamples: 0, isNewest: false };
  return pairSound(heard, { ofStream: hitsSeconds, periodSeconds: null });
}

/** What was read from its beginning: its seconds are the stream's. */
export function analysedSound(buffer: AudioBuffer, swapped: boolean, hitsSeconds: readonly number[]): PairSound {
  const { sampleRate, length } = buffer;
  const [from, to] = stretchAround(hitsSeconds, sampleRate, length);
  const heard = { ...cutBuffer(buffer, from, to), sampleRate, swapped, offsetSamples: 0, isNewest: false };
  const exact = hitsSeconds.map((at) => at - from / sampleRate).filter((at) => at >= 0);
  return pairSound(heard, { exact });
}
