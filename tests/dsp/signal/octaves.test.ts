import { describe, expect, it } from 'vitest';
import { OCTAVE_BANDS, octaveLowHz } from '../../../src/dsp/signal/octaves';

describe('the octaves', () => {
  // IEC 61260, base 2: mid frequencies 1000 · 2^n, edges a factor of √2 from them
  it.each([
    [0, 31.25],
    [1, 62.5],
    [4, 500],
    [5, 1000],
    [OCTAVE_BANDS - 1, 8000],
  ])('number %i lies round %d Hz', (k, mid) => {
    expect(octaveLowHz(k) * Math.SQRT2).toBeCloseTo(mid, 9);
    expect(octaveLowHz(k + 1)).toBeCloseTo(2 * octaveLowHz(k), 9);
  });
});
