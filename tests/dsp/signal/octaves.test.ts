import { describe, expect, it } from 'vitest';
import { OCTAVE_BANDS, octaveLowHz } from '../../../src/dsp/signal/octaves';
import { LOW_OCTAVES_HZ } from '../../../src/reading/bands';

/** middle of octave k: its edges lie √2 from it */
const mid = (k: number): number => octaveLowHz(k) * Math.SQRT2;

describe('the octaves', () => {
  // base-two system, IEC 61260-1:2014, annex D: 1000 · 2^n, written out
  it.each([
    [0, 31.25],
    [1, 62.5],
    [4, 500],
    [5, 1000],
    [OCTAVE_BANDS - 1, 8000],
  ])('number %i lies round %d Hz', (k, hz) => {
    expect(mid(k)).toBeCloseTo(hz, 9);
    expect(octaveLowHz(k + 1)).toBeCloseTo(2 * octaveLowHz(k), 9);
  });

  // exact base-ten mid frequencies as a signal-processing toolbox lists them for ANSI S1.11-2004, and the nominal ones of
  // IEC 61260-1:2014 as the python-acoustics library lists them
  it.each([
    [0, 31.6, 31.5],
    [1, 63.1, 63],
    [2, 125.9, 125],
    [3, 251.2, 250],
    [4, 501.2, 500],
    [5, 1000, 1000],
    [6, 1995.3, 2000],
    [7, 3981.1, 4000],
    [8, 7943.3, 8000],
  ])('number %i is the standard’s own within 1.2 %%: base-ten %d Hz, nominal %d Hz', (k, baseTen, nominal) => {
    expect(Math.abs(mid(k) / baseTen - 1)).toBeLessThan(0.012);
    expect(Math.abs(mid(k) / nominal - 1)).toBeLessThan(0.01);
  });

  it('from 63 to 500 Hz are those in which a drum’s low octave is looked for', () => {
    expect(LOW_OCTAVES_HZ).toEqual([1, 2, 3, 4].map(octaveLowHz));
  });
});
