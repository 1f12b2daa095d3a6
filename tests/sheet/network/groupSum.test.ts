import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { bestPolarities } from '../../../src/sheet/network/groupSum';
import { Gauss } from '../../support/sound/gauss';

describe('the polarities that give most together', () => {
  test('two that are alike but inverted: +3 dB of a possible 3, from nothing', () => {
    const { turn, gainDb, presentDb, bestDb } = bestPolarities([
      [1, -0.5],
      [-0.5, 1],
    ]);
    expect([...turn].filter((t) => t < 0)).toHaveLength(1);
    // by hand: 10·lg(1 ± 0.5)
    expect(bestDb).toBeCloseTo(1.7609, 4);
    expect(presentDb).toBeCloseTo(-3.0103, 4);
    expect(gainDb).toBeCloseTo(4.7712, 4);
  });

  test('what already gives most stays', () => {
    expect(
      bestPolarities([
        [1, 0.4, 0.2],
        [0.4, 1, 0.1],
        [0.2, 0.1, 1],
      ]),
    ).toMatchObject({ turn: Int8Array.of(1, 1, 1), gainDb: 0 });
  });

  test('equals the power of the signals themselves, over all sets of polarities', () => {
    const frames = 400;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 7 }), fc.integer({ min: 1, max: 1e6 }), (n, seed) => {
        const draw = new Gauss(seed);
        const shared = Float64Array.from({ length: frames }, () => draw.next());
        const signals = Array.from({ length: n }, () => {
          const amount = draw.next();
          const x = shared.map((v) => amount * v + draw.next());
          const rms = Math.sqrt(x.reduce((sum, v) => sum + v * v, 0) / frames);
          return x.map((v) => v / rms);
        });
        const powerOf = (signs: readonly number[]): number => {
          let sum = 0;
          for (let k = 0; k < frames; k++)
            sum += signals.reduce((all, x, i) => all + (signs[i] as number) * (x[k] as number), 0) ** 2;
          return sum / frames;
        };
        const gamma = signals.map((x) =>
          signals.map((y) =>
            Math.max(-1, Math.min(1, x.reduce((sum, v, k) => sum + v * (y[k] as number), 0) / frames)),
          ),
        );
        let most = 0;
        for (let bits = 0; bits < 2 ** n; bits++)
          most = Math.max(most, powerOf(Array.from({ length: n }, (_, i) => ((bits >> i) & 1 ? -1 : 1))));
        const { turn, gainDb } = bestPolarities(gamma);
        expect(powerOf([...turn])).toBeCloseTo(most, 6);
        expect(gainDb).toBeCloseTo(10 * Math.log10(most / powerOf(new Array<number>(n).fill(1))), 4);
        expect([...turn].filter((t) => t < 0).length).toBeLessThanOrEqual(n / 2);
      }),
      { numRuns: 60 },
    );
  });

  test('what can’t be is refused', () => {
    expect(() => bestPolarities([[1, 0.2]])).toThrow(RangeError);
    expect(() =>
      bestPolarities([
        [1, 1.2],
        [1.2, 1],
      ]),
    ).toThrow(RangeError);
    expect(() =>
      bestPolarities([
        [1, Number.NaN],
        [Number.NaN, 1],
      ]),
    ).toThrow(RangeError);
  });

  test('of two dozen: the two that are turned are found, whatever noise there is between the others', () => {
    const draw = new Gauss(7);
    const turned = [4, 19];
    const rows = Array.from({ length: 24 }, () => new Array<number>(24).fill(1));
    for (let i = 0; i < 24; i++)
      for (let j = 0; j < i; j++) {
        const sign = turned.includes(i) === turned.includes(j) ? 1 : -1;
        const re = sign * Math.max(-1, Math.min(1, 0.4 + 0.2 * draw.next()));
        (rows[i] as number[])[j] = re;
        (rows[j] as number[])[i] = re;
      }
    const { turn, gainDb, presentDb, bestDb } = bestPolarities(rows);
    expect([...turn.keys()].filter((i) => turn[i] === -1)).toEqual(turned);
    expect(gainDb).toBeCloseTo(bestDb - presentDb, 9);
    expect(
      bestPolarities(rows.map((row, i) => row.map((x, j) => x * (turn[i] as number) * (turn[j] as number)))),
    ).toMatchObject({
      gainDb: 0,
      turn: new Int8Array(24).fill(1),
    });
  });
});
