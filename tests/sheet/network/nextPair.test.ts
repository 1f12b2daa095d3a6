import { describe, expect, test } from 'vitest';
import { solveDelays } from '../../../src/sheet/network/delays';
import { nextPair } from '../../../src/sheet/network/nextPair';

describe('what to measure next', () => {
  const reading = (
    a: number,
    b: number,
    uncertaintyMs = 0.1,
  ): { a: number; b: number; delayMs: number; uncertaintyMs: number } => ({ a, b, delayMs: 0, uncertaintyMs });
  const all = (n: number): { a: number; b: number }[] =>
    Array.from({ length: n }, (_, a) => Array.from({ length: n - a - 1 }, (_, k) => ({ a, b: a + 1 + k }))).flat();
  const next = (n: number, readings: ReturnType<typeof reading>[], suspects: number[] = []) => {
    const candidates = all(n);
    const { candidate, why } = nextPair(n, readings, suspects, solveDelays(n, readings, 0), candidates);
    return { pair: candidate === null ? null : candidates[candidate], why };
  };

  test('first what nothing joins yet, the larger groups first', () => {
    expect(next(3, [])).toEqual({ pair: { a: 0, b: 1 }, why: 'joins' });
    expect(next(5, [reading(0, 1), reading(3, 4)])).toEqual({ pair: { a: 0, b: 3 }, why: 'joins' });
  });

  test('then what is least known and not checked', () => {
    expect(next(3, [reading(0, 1), reading(1, 2)])).toEqual({ pair: { a: 0, b: 2 }, why: 'checks' });
    expect(next(4, [reading(0, 1), reading(1, 2), reading(2, 3, 0.5)])).toEqual({
      pair: { a: 0, b: 3 },
      why: 'checks',
    });
  });

  test('the likeliest wrong reading before all', () => {
    expect(next(3, [reading(0, 1), reading(1, 2), reading(0, 2)], [1, 0])).toEqual({
      pair: { a: 1, b: 2 },
      why: 'again',
    });
  });

  test('nothing where all is joined and checked', () => {
    expect(next(3, [reading(0, 1), reading(1, 2), reading(0, 2)])).toEqual({ pair: null, why: null });
  });
});
