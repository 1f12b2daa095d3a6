import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { groupsOf, setsOf } from '../../../src/sheet/network/ends';
import { type DelayBetween, solveMixDelays } from '../../../src/sheet/network/mixDelays';

const between = (a: number, b: number, delayMs: number, weight = 1): DelayBetween => ({ a, b, delayMs, weight });

describe('delays in the mix', () => {
  test('A is delayed where it is positive, B where it is negative; nobody is ahead', () => {
    expect([...solveMixDelays(2, [between(0, 1, 2.76)]).delayMs]).toEqual([2.76, 0]);
    expect([...solveMixDelays(2, [between(0, 1, -2.76)]).delayMs]).toEqual([0, 2.76]);
    expect([...solveMixDelays(3, []).delayMs]).toEqual([0, 0, 0]);
  });

  test('what is aligned with a delayed one goes along by the same', () => {
    // 0 top, 1 bottom, 2 overhead, 3 a tom of another group
    const { delayMs, settledBy } = solveMixDelays(4, [between(0, 2, 2.76), between(0, 1, 0)]);
    expect([...delayMs]).toEqual([2.76, 2.76, 0, 0]);
    expect(settledBy).toEqual([0, 1]);
  });

  test('of three that can’t all have theirs the one that counts least gives way', () => {
    const { delayMs, settledBy } = solveMixDelays(3, [between(0, 1, 3, 5), between(0, 2, 4, 1), between(1, 2, 0, 9)]);
    expect([...delayMs]).toEqual([3, 0, 0]);
    expect([...settledBy].sort()).toEqual([0, 2]);
  });

  test('whatever hangs together: each that settles it has its own, no delay is below nothing, one of a group is at nothing', () => {
    const pair = fc.record({
      a: fc.nat(6),
      b: fc.nat(6),
      delayMs: fc.integer({ min: -500, max: 500 }).map((x) => x / 100),
      weight: fc.nat(9),
    });
    fc.assert(
      fc.property(fc.array(pair, { maxLength: 12 }), (drawn) => {
        const pairs = drawn.filter(({ a, b }) => a !== b);
        const { delayMs, settledBy } = solveMixDelays(7, pairs);
        for (const i of settledBy) {
          const one = pairs[i] as DelayBetween;
          expect((delayMs[one.a] as number) - (delayMs[one.b] as number)).toBeCloseTo(one.delayMs, 9);
        }
        const { group } = groupsOf(7, pairs);
        for (const m of delayMs.keys()) {
          const together = [...delayMs.keys()].filter((n) => group[n] === group[m]);
          expect(Math.min(...together.map((n) => delayMs[n] as number))).toBeCloseTo(0, 9);
        }
      }),
    );
  });

  test('what isn’t finite is refused', () => {
    expect(() => solveMixDelays(2, [between(0, 1, Number.NaN)])).toThrow(RangeError);
    expect(() => solveMixDelays(2, [between(0, 1, 1, Number.NaN)])).toThrow(RangeError);
  });
});

test('what hangs together, as sets; a microphone in no pair by itself', () => {
  const edges = [between(0, 1, 0), between(2, 1, 0), between(4, 5, 0)];
  expect(setsOf(6, edges).map((who) => [...who].join(''))).toEqual(['111000', '000100', '000011']);
});
