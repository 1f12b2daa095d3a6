/** The stretch that is listened to is what is read: its channels, its hits, no more than it takes. */
import { expect, test } from 'vitest';
import { analysedSound, loopedSound, playedSound } from '../../../src/audio/listen/sounds';

const RATE = 8000;

/** What an AudioBuffer offers here: hits in both, B's half as loud; a stretch that is no number. */
function bufferOf(seconds: number, hitsSeconds: readonly number[]): AudioBuffer {
  const a = new Float32Array(seconds * RATE);
  for (const at of hitsSeconds)
    for (let i = Math.round(at * RATE), t = 0; t < 800 && i < a.length; i++, t++)
      a[i] = 0.5 * Math.exp(-t / 200) * Math.sin(0.6 * t);
  a.fill(Number.NaN, 100, 110);
  const channels = [a, a.map((x) => x / 2)];
  return {
    numberOfChannels: 2,
    length: a.length,
    duration: seconds,
    sampleRate: RATE,
    copyFromChannel(into: Float32Array, channel: number, from = 0) {
      into.set((channels[channel] as Float32Array).subarray(from, from + into.length));
    },
  } as unknown as AudioBuffer;
}
const near = (found: readonly number[], wanted: readonly number[]): void => {
  expect(found.length).toBe(wanted.length);
  found.forEach((at, i) => {
    expect(Math.abs(at - (wanted[i] as number))).toBeLessThan(0.002);
  });
};
const played = [1, 2.3, 3.1, 4.7];
const peak = (x: Float32Array): number => x.reduce((high, one) => Math.max(high, Math.abs(one)), 0);

test('an example is taken whole, its hits are found, and those of the drum that is read by their pattern', () => {
  const all = loopedSound(bufferOf(6, played), false, []);
  expect(all.a.length).toBe(6 * RATE);
  near(all.hitsSeconds, played);
  expect(all.ownSeconds).toEqual([]);
  // the reading's stream began 4 s into the loop of 6
  const own = loopedSound(
    bufferOf(6, played),
    false,
    [1, 2.3, 4.7].map((at) => at + 2 + 6 * 3),
  );
  near(own.ownSeconds, [1, 2.3, 4.7]);
  expect(peak(all.a) / peak(all.b)).toBeCloseTo(2, 5);
  expect(all.a.every(Number.isFinite)).toBe(true);
});

test('swapped, A is the second channel', () => {
  const sound = loopedSound(bufferOf(6, played), true, []);
  expect(peak(sound.a) / peak(sound.b)).toBeCloseTo(0.5, 5);
});

test('of a long recording 20 s are taken, round the newest of the hits that the answer stands on', () => {
  const many = Array.from({ length: 55 }, (_, i) => 1 + i);
  const sound = analysedSound(bufferOf(60, many), false, [28, 29, 30]);
  expect(sound.a.length).toBe(20 * RATE);
  near(sound.ownSeconds, [15, 16, 17]);
  near(
    sound.hitsSeconds,
    Array.from({ length: 20 }, (_, i) => i).filter((at) => at > 0.06),
  );
  const soFar = playedSound(bufferOf(60, many), false, [], 7.5);
  near(soFar.hitsSeconds, [1, 2, 3, 4, 5, 6, 7]);
});
