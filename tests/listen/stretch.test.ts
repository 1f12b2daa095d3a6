/** What goes round: the right hits, from just before them, with a seam that is silent. */
import { expect, test } from 'vitest';
import { chooseLoop } from '../../src/listen/stretch';
import type { PairSound } from '../../src/listen/version';

const RATE = 48_000;

/** Decays on a floor of DC, which any hard cut would show. */
function soundOf(
  hits: readonly { at: number; level: number }[],
  seconds: number,
  more: Partial<PairSound> = {},
): PairSound {
  const a = new Float32Array(seconds * RATE).fill(0.01);
  for (const { at, level } of hits)
    for (let i = Math.round(at * RATE), t = 0; i < a.length; i++, t++)
      a[i] = (a[i] as number) + level * Math.exp(-t / (0.1 * RATE)) * Math.sin(0.02 * t);
  const hitsSeconds = hits.map(({ at }) => at);
  const plain = { sampleRate: RATE, a, b: a.map((x) => 0.5 * x), hitsSeconds, ownSeconds: [], offsetSamples: 0 };
  return { ...plain, isNewest: false, ...more };
}
const hits = [0.5, 1.1, 1.7, 2.3, 2.9, 3.5].map((at, i) => ({
  at,
  level: [0.2, 0.9, 0.5, 0.4, 0.6, 0.1][i] as number,
}));

test('one hit goes from 5 ms before it to just before the next, and is a usual one', () => {
  const loop = chooseLoop(soundOf(hits, 4), 'hit');
  expect(loop?.hits).toBe(1);
  expect(loop?.a.length).toBe(0.6 * RATE);
  const peak = Math.max(...(loop?.a ?? []).map(Math.abs));
  expect(peak).toBeGreaterThan(0.35);
  expect(peak).toBeLessThan(0.65);
  // silent until the hit
  expect(Math.abs(loop?.a[200] ?? 1)).toBeLessThan(0.02);
});

test('a bar is several hits, up to 4 s, from hit to hit; where mics are open, the newest', () => {
  const many = Array.from({ length: 14 }, (_, i) => ({ at: 0.5 + 0.6 * i, level: 0.2 + 0.05 * i }));
  const bar = chooseLoop(soundOf(many, 9), 'bar');
  expect(bar?.hits).toBe(6);
  expect(bar?.a.length).toBeCloseTo(3.6 * RATE, -1);
  const newest = chooseLoop(soundOf(many, 9, { isNewest: true }), 'hit');
  expect(Math.max(...(newest?.a ?? []).map(Math.abs))).toBeGreaterThan(0.7);
});

test('the drum that is read goes round, and another drum’s hit ends it', () => {
  const loop = chooseLoop(soundOf(hits, 4, { ownSeconds: [1.1, 2.3] }), 'hit');
  expect(loop?.a.length).toBeCloseTo(0.6 * RATE, -1);
  // both are told to within a few ms
  expect(chooseLoop(soundOf(hits, 4, { ownSeconds: hits.map(({ at }) => at - 0.003) }), 'hit')?.hits).toBe(1);
  const bar = chooseLoop(soundOf(hits, 4, { ownSeconds: [1.1, 2.3] }), 'bar');
  // from the first of them to the end, which is no longer than 4 s
  expect(bar?.hits).toBe(2);
});

test('the seam is silent in both channels', () => {
  for (const stretch of ['hit', 'bar'] as const) {
    const loop = chooseLoop(soundOf(hits, 4), stretch);
    for (const x of [loop?.a, loop?.b]) {
      expect(Math.abs(x?.[0] ?? 1)).toBeLessThan(1e-6);
      expect(Math.abs(x?.at(-1) ?? 1)).toBeLessThan(1e-6);
      // and comes to that without a step over −60 dBFS
      const last = (x?.length ?? 0) - 1;
      for (let i = last - 600; i < last; i++)
        expect(Math.abs((x?.[i + 1] ?? 1) - (x?.[i] ?? 0))).toBeLessThan(0.001 + 0.02 * Math.abs(x?.[i] ?? 0));
    }
  }
});

test('without a hit there is nothing to go round', () => {
  expect(chooseLoop(soundOf([], 4), 'hit')).toBeNull();
  // too close to the end to be heard as one
  expect(chooseLoop(soundOf([{ at: 3.95, level: 1 }], 4), 'hit')).toBeNull();
});

test('where mics are open, the newest hit is heard whole: rung out, or ended by another', () => {
  const open = { isNewest: true };
  const [first, second] = [
    { at: 0.5, level: 0.3 },
    { at: 1.1, level: 0.9 },
  ] as const;
  const peakOf = (sound: PairSound): number => Math.max(...(chooseLoop(sound, 'hit')?.a ?? []).map(Math.abs));
  for (const stretch of ['hit', 'bar'] as const) {
    // it still rings
    expect(chooseLoop(soundOf([first], 1.4, open), stretch)).toBeNull();
    expect(chooseLoop(soundOf([first], 1.5, open), stretch)?.hits).toBe(1);
    expect(chooseLoop(soundOf([first, second], 1.4, open), stretch)?.hits).toBe(1);
  }
  // the second isn't whole yet
  expect(peakOf(soundOf([first, second], 2, open))).toBeLessThan(0.4);
  expect(peakOf(soundOf([first, second], 2.2, open))).toBeGreaterThan(0.7);
});
