/** How a hit's energy lies over eight bands from 40 Hz to 10 kHz of both channels, from made-up spectra, bins of 10 Hz. */
import { describe, expect, it } from 'vitest';
import { printOf } from '../../support/rules/hitRules';

/** dB of nothing at all */
const NONE = -200;
const only = (band: number, dB: number): number[] => Array.from({ length: 8 }, (_, b) => (b === band ? dB : NONE));

describe('a fingerprint', () => {
  it.each([
    { hz: 30, band: -1 },
    { hz: 40, band: 0 },
    { hz: 70, band: 0 },
    { hz: 80, band: 1 },
    { hz: 120, band: 1 },
    { hz: 130, band: 2 },
    { hz: 190, band: 2 },
    { hz: 200, band: 3 },
    { hz: 310, band: 3 },
    { hz: 320, band: 4 },
    { hz: 490, band: 4 },
    { hz: 500, band: 5 },
    { hz: 990, band: 5 },
    { hz: 1000, band: 6 },
    { hz: 2490, band: 6 },
    { hz: 2500, band: 7 },
    { hz: 9990, band: 7 },
    { hz: 10000, band: -1 },
  ])('has a tone of $hz Hz in band $band, of the channel that it is in', ({ hz, band }) => {
    const tone = { [hz / 10]: [1, 0] as const };
    const silent = only(-1, 0);
    const inA = printOf(tone, {});
    const inB = printOf({}, tone);
    for (const [b, dB] of only(band, 0).entries()) {
      expect(inA.a[b]).toBeCloseTo(dB, 9);
      expect(inB.b[b]).toBeCloseTo(dB, 9);
      expect(inA.b[b]).toBeCloseTo(silent[b], 9);
      expect(inB.a[b]).toBeCloseTo(silent[b], 9);
    }
  });

  it('adds powers up, real and imaginary part alike', () => {
    // 3² + 4² = 25; four of those are 100: 20 dB
    const four = { 60: [3, 4], 70: [-3, 4], 80: [4, -3], 90: [0, 5] } as const;
    expect(printOf(four, {}).a[5]).toBeCloseTo(20, 9);
  });

  it('ends where the sample rate does', () => {
    // at 8 kHz the highest bin below half the rate is 399
    const { a } = printOf({ 399: [1, 0], 400: [1, 0] }, {}, 8000);
    expect(a[7]).toBeCloseTo(0, 9);
  });
});
