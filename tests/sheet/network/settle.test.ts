/** Switches and delays of all together, against every one of them tried. */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { settle } from '../../../src/sheet/network/settle';
import type { KitPair, Setting } from '../../../src/sheet/network/together';

/** Re γ at a delay: what the pair gains over the present, dB, is lost against the best of its ways. */
function pairOf(a: number, b: number, hz: number, atMs: number, size: number, sign: number): KitPair {
  const level = (turned: boolean, ms: number): number =>
    10 * Math.log10(1 + (turned ? -1 : 1) * sign * size * Math.cos((2 * Math.PI * hz * (ms - atMs)) / 1000));
  const all = [0, atMs].flatMap((delayMs) => [false, true].map((turned) => ({ turned, delayMs })));
  const ways = all.sort((p, q) => level(q.turned, q.delayMs) - level(p.turned, p.delayMs));
  const own = ways[0] as (typeof ways)[number];
  const lossDb = (turned: boolean, ms: number): number =>
    turned === own.turned && ms === own.delayMs ? 0 : Math.max(0.1, level(own.turned, own.delayMs) - level(turned, ms));
  return { a, b, asked: true, ways, lossDb };
}

const lossOf = (pairs: readonly KitPair[], signs: ArrayLike<number>, delayMs: ArrayLike<number>): number =>
  pairs.reduce((sum, { a, b, lossDb }) => {
    const by = (delayMs[a] as number) - (delayMs[b] as number);
    return sum + lossDb(signs[a] !== signs[b], Math.round(by * 1e6) / 1e6);
  }, 0);

const figures = fc.tuple(
  fc.integer({ min: 80, max: 900 }),
  fc.integer({ min: -300, max: 300 }),
  fc.integer({ min: 5, max: 95 }),
  fc.constantFrom(1, -1),
);
const withFigures = (a: number, b: number, [hz, cents, size, sign]: [number, number, number, number]): KitPair =>
  pairOf(a, b, hz, cents / 100, size / 100, sign);
const triangle = fc
  .tuple(figures, figures, figures)
  .map(([p, q, r]) => [withFigures(0, 1, p), withFigures(0, 2, q), withFigures(2, 1, r)]);
const drawn = (n: number) =>
  fc
    .array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1), figures), { minLength: 1, maxLength: 3 * n })
    .map((pairs) => pairs.filter(([a, b]) => a !== b).map(([a, b, one]) => withFigures(a, b, one)));

const run = (n: number, pairs: readonly KitPair[]): Setting => settle(n, pairs, new Set()).setting;

test('of a triangle the best of every set of switches and of every two ways that join them', () => {
  fc.assert(
    fc.property(triangle, (pairs) => {
      const { signs, delayMs } = run(3, pairs);
      const between = (p: number, q: number): number[] => [
        0,
        ...pairs.flatMap(({ a, b, ways }) =>
          a === p && b === q
            ? ways.map((way) => way.delayMs)
            : a === q && b === p
              ? ways.map((way) => -way.delayMs)
              : [],
        ),
      ];
      let best = Number.POSITIVE_INFINITY;
      for (const [one, other] of [
        [1, 2],
        [0, 2],
        [0, 1],
      ] as const) {
        const middle = 3 - one - other;
        for (const x of between(one, middle))
          for (const y of between(other, middle))
            for (const turns of [0, 1, 2, 3]) {
              const ms = [0, 0, 0];
              [ms[one], ms[other]] = [x, y];
              best = Math.min(best, lossOf(pairs, [1, turns & 1 ? -1 : 1, turns & 2 ? -1 : 1], ms));
            }
      }
      expect(lossOf(pairs, signs, delayMs)).toBeLessThan(best + 1e-6);
    }),
    { numRuns: 300, endOnFailure: true },
  );
});

test('of more never worse than leaving all, the same every time; nobody is ahead, one of those that hang together is at nothing', () => {
  fc.assert(
    fc.property(drawn(7), (pairs) => {
      const { signs, delayMs } = run(7, pairs);
      expect(lossOf(pairs, signs, delayMs)).toBeLessThanOrEqual(
        lossOf(pairs, new Array(7).fill(1), new Array(7).fill(0)) + 1e-9,
      );
      expect(run(7, pairs)).toEqual({ signs, delayMs });
      expect(Math.min(...delayMs)).toBe(0);
      for (let m = 0; m < 7; m++)
        if (!pairs.some(({ a, b }) => a === m || b === m)) expect([signs[m], delayMs[m]]).toEqual([1, 0]);
    }),
    { numRuns: 60 },
  );
});
