/** The logit's weights, by hand and from choices that were drawn with known ones. */
import { describe, expect, it } from 'vitest';
import { seeded } from '../../support/sound/signals';
import { fitLogit, type LogitChoice, probabilities } from './logit';

describe('a logit over candidates and none', () => {
  it('gives each its share: two alike and none at 0 a third each', () => {
    const { each, none } = probabilities({ features: [[1], [1]], right: [true, false] }, [0]);
    for (const p of [...each, none]) expect(p).toBeCloseTo(1 / 3, 12);
  });

  it('with a bias alone has the odds of what was right: 3 of 4 gives ln 3', () => {
    const choices = [true, true, true, false].map((right): LogitChoice => ({ features: [[1]], right: [right] }));
    expect(fitLogit(choices, 1, 0)[0]).toBeCloseTo(Math.log(3), 3);
  });

  it('counts any of several right ones: two of two are right as often as none is', () => {
    const choices = [true, false].map((right): LogitChoice => ({ features: [[1], [1]], right: [right, right] }));
    // 2·e^w = 1
    expect(fitLogit(choices, 1, 0)[0]).toBeCloseTo(-Math.log(2), 3);
  });

  it('finds the weights that choices were drawn with', () => {
    const random = seeded(11);
    const truth = [-0.5, 2, -1];
    const choices = Array.from({ length: 6000 }, (): LogitChoice => {
      const features = Array.from({ length: 4 }, () => [1, 2 * random() - 1, 2 * random() - 1]);
      const { each } = probabilities({ features, right: [] }, truth);
      let left = random();
      const chosen = each.findIndex((p) => {
        left -= p;
        return left < 0;
      });
      return { features, right: features.map((_, c) => c === chosen) };
    });
    for (const [i, w] of fitLogit(choices, 3, 0).entries()) expect(w).toBeCloseTo(truth[i] as number, 0.8);
  });

  it('is pulled towards 0, but for the bias', () => {
    const choices = [1, 1, 1, -1].map((x): LogitChoice => ({ features: [[1, x]], right: [x > 0] }));
    const free = fitLogit(choices, 2, 0.01)[1] as number;
    const pulled = fitLogit(choices, 2, 10)[1] as number;
    expect(free).toBeGreaterThan(2);
    expect(pulled).toBeGreaterThan(0);
    expect(pulled).toBeLessThan(0.2);
  });
});
