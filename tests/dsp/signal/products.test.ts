import { describe, expect, it } from 'vitest';
import { productsAt } from '../../../src/dsp/signal/products';
import { seeded } from '../../support/sound/signals';

describe('sums of products, lag by lag', () => {
  it.each([1, 3, 4, 5, 8, 45, 49])('are each what they would be alone: %i lags', (lags) => {
    const random = seeded(lags);
    const values = (n: number): Float64Array => Float64Array.from({ length: n }, () => random() - 0.5);
    const n = 50;
    const from = 7;
    const x = values(n);
    const y = values(from + n + lags);
    const out = new Float64Array(lags);
    productsAt(x, y, from, n, out);
    const alone = (d: number): number => x.reduce((sum, v, k) => sum + v * (y[from + d + k] as number), 0);
    expect([...out]).toEqual(Array.from({ length: lags }, (_, d) => alone(d)));
  });
});
