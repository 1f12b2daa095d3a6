import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { type DelayReading, solveDelays } from '../../../src/sheet/network/delays';
import reference from '../../reference/network.json';

describe('delays of a drum’s microphones from its pairs', () => {
  // reference: SciPy's lstsq and inv, tests/reference/network.py
  for (const c of reference.cases)
    test(`${c.microphones} microphones, ${c.readings.length} pairs${c.wrong === null ? '' : ', one wrong'}: as SciPy`, () => {
      const answer = solveDelays(c.microphones, c.readings, c.reference);
      for (let i = 0; i < c.microphones; i++) {
        expect(answer.delayMs[i]).toBeCloseTo(c.delayMs[i] as number, 9);
        expect(answer.uncertaintyMs[i]).toBeCloseTo(c.uncertaintyMs[i] as number, 9);
      }
      for (let i = 0; i < c.readings.length; i++) {
        expect(answer.residualMs[i]).toBeCloseTo(c.residualMs[i] as number, 9);
        expect(answer.test[i]).toBeCloseTo(c.test[i] as number, 6);
      }
      if (c.wrong !== null) expect(answer.suspects[0]).toBe(c.wrong);
    });

  test('three readings round a triangle that don’t close are named, with the error of the closure', () => {
    const readings = [
      { a: 0, b: 1, delayMs: 1, uncertaintyMs: 0.02 },
      { a: 2, b: 1, delayMs: -0.5, uncertaintyMs: 0.02 },
      { a: 0, b: 2, delayMs: 1.2, uncertaintyMs: 0.05 },
    ];
    const { open, suspects } = solveDelays(3, readings, 0);
    // by hand: 1 + 0.5 − 1.2
    expect(open).toHaveLength(1);
    expect(open[0]?.errorMs).toBeCloseTo(0.3, 12);
    expect(open[0]?.uncertaintyMs).toBeCloseTo(Math.hypot(0.02, 0.02, 0.05), 12);
    // all three are as bad: the one that is least sure of itself
    expect(suspects[0]).toBe(2);
  });

  test('a triangle that closes within its uncertainty is left alone', () => {
    const readings = [
      { a: 0, b: 1, delayMs: 1, uncertaintyMs: 0.1 },
      { a: 1, b: 2, delayMs: 0.5, uncertaintyMs: 0.1 },
      { a: 0, b: 2, delayMs: 1.4, uncertaintyMs: 0.1 },
    ];
    const { open, suspects } = solveDelays(3, readings, 0);
    expect(open).toEqual([]);
    expect(suspects).toEqual([]);
  });

  test('what no reading joins to the reference has no delay; the uncertainty between groups is infinite', () => {
    const answer = solveDelays(
      4,
      [
        { a: 0, b: 1, delayMs: 1, uncertaintyMs: 0.1 },
        { a: 3, b: 2, delayMs: 2, uncertaintyMs: 0.2 },
      ],
      1,
    );
    expect(answer.delayMs).toEqual([-1, 0, null, null]);
    expect(answer.uncertaintyMs).toEqual([expect.closeTo(0.1, 12), 0, null, null]);
    expect(answer.betweenMs(2, 3)).toBeCloseTo(0.2, 12);
    expect(answer.betweenMs(0, 2)).toBe(Number.POSITIVE_INFINITY);
  });

  test('readings without error give back the places exactly, whichever way round each was read', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: 2, maxLength: 14 }),
        fc.array(fc.tuple(fc.nat(), fc.nat()), { maxLength: 60 }),
        fc.nat(),
        (places, extra, ref) => {
          const n = places.length;
          const pairs = [
            ...Array.from({ length: n - 1 }, (_, i) => [i, i + 1] as [number, number]),
            ...extra.map(([p, q]) => [p % n, q % n] as [number, number]).filter(([a, b]) => a !== b),
          ];
          const readings = pairs.map(
            ([a, b], i): DelayReading => ({
              a,
              b,
              delayMs: (places[b] as number) - (places[a] as number),
              uncertaintyMs: 0.01 + (i % 7) / 50,
            }),
          );
          const { delayMs, open } = solveDelays(n, readings, ref % n);
          for (let i = 0; i < n; i++)
            expect(delayMs[i]).toBeCloseTo((places[i] as number) - (places[ref % n] as number), 7);
          expect(open).toEqual([]);
        },
      ),
    );
  });

  test('what can’t be is refused', () => {
    const good = { a: 0, b: 1, delayMs: 1, uncertaintyMs: 0.1 };
    expect(() => solveDelays(2, [{ ...good, b: 2 }], 0)).toThrow(RangeError);
    expect(() => solveDelays(2, [{ ...good, b: 0 }], 0)).toThrow(RangeError);
    expect(() => solveDelays(2, [{ ...good, delayMs: Number.NaN }], 0)).toThrow(RangeError);
    expect(() => solveDelays(2, [{ ...good, uncertaintyMs: 0 }], 0)).toThrow(RangeError);
    expect(() => solveDelays(2, [good], 2)).toThrow(RangeError);
  });
});
