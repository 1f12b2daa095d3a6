/** Speed of sound and comb filters: each value with its source beside it, or marked as a check of the arithmetic. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cmPerSample,
  combDb,
  delaySeconds,
  notchDepthDb,
  notchesHz,
  pathCm,
  peakDb,
  predictedCoherency,
  SUM_FLOOR_DB,
  speedOfSound,
  sumDbFromCoherency,
  thinZonesHz,
} from '../../src/reading/acoustics';
import type { Polarity } from '../../src/reading/reading';

describe('speed of sound', () => {
  // O. Cramer, J. Acoust. Soc. Am. 93 (1993) 2510–2516, at 101.325 kPa: dry air and 50 % relative humidity
  it.each([
    [0, 331.45, 331.6],
    [10, 337.46, 337.78],
    [20, 343.36, 343.99],
    [25, 346.27, 347.13],
    [30, 349.15, 350.31],
  ])('at %d °C is within 0.8 m/s of Cramer for dry air, and within 1.4 m/s at 50 %% humidity', (t, dry, humid) => {
    expect(Math.abs(speedOfSound(t) - dry)).toBeLessThanOrEqual(0.8);
    expect(Math.abs(speedOfSound(t) - humid)).toBeLessThanOrEqual(1.4);
  });

  // 331.3·√(1+t/273.15), worked by hand to two places (arithmetic check, no outside source)
  it.each([
    [0, 331.3],
    [10, 337.31],
    [20, 343.21],
    [25, 346.13],
    [30, 349.02],
  ])('at %d °C is %d m/s by the ideal gas law', (t, c) => {
    expect(speedOfSound(t)).toBeCloseTo(c, 2);
  });

  // ISO 9613-1:1993: c = 343.2·√(T/293.15), as the python-acoustics library has it; the standard itself wasn't seen
  it('is within 0.05 m/s of ISO 9613-1 from −20 to 50 °C', () => {
    for (let t = -20; t <= 50; t += 5)
      expect(Math.abs(speedOfSound(t) - 343.2 * Math.sqrt((t + 273.15) / 293.15))).toBeLessThan(0.05);
  });

  // √(294.15/293.15) − 1 = 0.0017 (arithmetic check, no outside source)
  it('shifts a metre by 1.7 mm a degree', () => {
    const mm = (pathCm(delaySeconds(100, 20), 21) - 100) * 10;
    expect(mm).toBeCloseTo(1.7, 1);
  });

  // 1 m at 343.2 m/s (arithmetic check, no outside source)
  it('makes 2.914 ms and 139.86 samples of a metre', () => {
    expect(delaySeconds(100, 20) * 1000).toBeCloseTo(2.914, 3);
    expect(delaySeconds(100, 20) * 48000).toBeCloseTo(139.86, 1);
    expect(pathCm(delaySeconds(-37, 12), 12)).toBeCloseTo(-37, 9);
    expect(139.86 * cmPerSample(48000, 20)).toBeCloseTo(100, 1);
  });
});

describe('notches', () => {
  // F. A. Everest, K. C. Pohlmann, Master Handbook of Acoustics, ch. 10: the first null at 1/(2t), then every 1/t
  it('of 0.1 ms lie at 5 and 15 kHz, then every 10 kHz', () => {
    expect(notchesHz(0.0001, 'same', 40000).map(Math.round)).toEqual([5000, 15000, 25000, 35000]);
  });
  // the same, table 10-3
  it('of 1 ms lie at 500, 1500, 2500 Hz and never at 1000 Hz', () => {
    const notches = notchesHz(0.001, 'same').map(Math.round);
    expect(notches.slice(0, 3)).toEqual([500, 1500, 2500]);
    expect(notches).not.toContain(1000);
    expect(notches).toHaveLength(20);
  });
  // the copy inverted: peaks and nulls change places (arithmetic check, no outside source)
  it('of 1 ms inverted lie at 0, 1000, 2000 Hz', () => {
    expect(notchesHz(0.001, 'inverted', 2500).map(Math.round)).toEqual([0, 1000, 2000]);
  });
  // an overhead 3 ms late; 1 m at 343.2 m/s (arithmetic check, no outside source)
  it('start at about 167 Hz for an overhead 3 ms late, at 171.6 Hz for a metre', () => {
    expect(notchesHz(0.003, 'same')[0]).toBeCloseTo(166.67, 2);
    expect(notchesHz(1 / 343.2, 'same')[0]).toBeCloseTo(171.6, 6);
  });
  it('do not care which microphone is late, and stop where told', () => {
    expect(notchesHz(-0.001, 'same', 1600)).toEqual(notchesHz(0.001, 'same', 1600));
    expect(notchesHz(0.001, 'same', 499)).toEqual([]);
  });
  it('need a delay; without one an inverted pair cancels from 0 Hz on', () => {
    expect(notchesHz(0, 'same')).toEqual([]);
    expect(notchesHz(0, 'inverted')).toEqual([0]);
    expect(notchesHz(Number.NaN, 'same')).toEqual([]);
    expect(notchesHz(Number.POSITIVE_INFINITY, 'same')).toEqual([]);
    expect(notchesHz(0.001, 'same', Number.NaN)).toEqual([]);
  });
});

describe('depth and height of a comb', () => {
  // 20·log10(1 ± 10^(L/20)), worked by hand for −3 … −27 dB (arithmetic check, no outside source)
  it.each([
    [-3, 4.65, -10.69],
    [-6, 3.53, -6.04],
    [-10, 2.39, -3.3],
    [-20, 0.83, -0.92],
    [-27, 0.38, -0.4],
    // distance ratio 3:1 by the 1/r law: not inaudible
    [-9.542, 2.5, -3.52],
  ])('copy %d dB down: %d / %d dB re the louder', (l, peak, notch) => {
    expect(peakDb(l)).toBeCloseTo(peak, 2);
    expect(notchDepthDb(l)).toBeCloseTo(notch, 2);
    expect(notchDepthDb(-l)).toBe(notchDepthDb(l));
    expect(combDb(1000, 0.001, 'same', l).reLouderDb).toBeCloseTo(peak, 2);
    expect(combDb(500, 0.001, 'same', l).reLouderDb).toBeCloseTo(notch, 2);
  });
  // arithmetic check, no outside source
  it('3:1 in distance is 9.542 dB by the 1/r law', () => {
    expect(20 * Math.log10(3)).toBeCloseTo(9.542, 3);
  });
  it('a dip of 1 dB or less needs 19.3 dB, 9.2:1 in distance', () => {
    expect(notchDepthDb(19.3)).toBeGreaterThan(-1);
    expect(notchDepthDb(19.2)).toBeLessThan(-1);
    expect(20 * Math.log10(9.2)).toBeCloseTo(19.3, 1);
  });
  // Everest & Pohlmann, ch. 10: peaks 20·log10 2 = 6.02 dB over one alone, nulls at minus infinity
  it('equal levels: +6.02 dB and a null, which is floored', () => {
    expect(peakDb(0)).toBeCloseTo(6.02, 2);
    expect(notchDepthDb(0)).toBe(SUM_FLOOR_DB);
    expect(combDb(500, 0.001, 'same').reLouderDb).toBe(SUM_FLOOR_DB);
  });
});

describe('the sum of two equal tones', () => {
  // Audio Engineering: Know It All (Newnes), table 2.9: two 90 dB tones 0°, 10°, … 170° apart; tolerance 0.006 dB
  const TABLE = [
    96.02, 95.99, 95.89, 95.72, 95.48, 95.17, 94.77, 94.29, 93.71, 93.01, 92.18, 91.19, 90.0, 88.54, 86.7, 84.28, 80.81,
    74.83,
  ];
  it.each(TABLE.map((db, i) => [i * 10, db]))('%d° apart make %d dB', (degrees, db) => {
    // at 1 kHz an angle is a delay of degrees/360 ms
    const { reLouderDb, rePowerSumDb } = combDb(1000, degrees / 360 / 1000, 'same');
    expect(Math.abs(90 + reLouderDb - db)).toBeLessThanOrEqual(0.006);
    // the power sum of two such tones is 93.01 dB (10·log10 2)
    expect(Math.abs(93.0103 + rePowerSumDb - db)).toBeLessThanOrEqual(0.006);
    // the coherency of two tones is exp(−jφ): Re γ = cos φ
    const fromCoherency = sumDbFromCoherency(Math.cos((degrees * Math.PI) / 180));
    expect(Math.abs(93.0103 + fromCoherency - db)).toBeLessThanOrEqual(0.006);
  });
  it('unrelated tones make the power sum, opposite ones the floor', () => {
    expect(sumDbFromCoherency(0)).toBe(0);
    expect(sumDbFromCoherency(1)).toBeCloseTo(3.01, 2);
    expect(sumDbFromCoherency(-1)).toBe(SUM_FLOOR_DB);
    expect(sumDbFromCoherency(1.0000001)).toBeCloseTo(3.01, 2);
    expect(sumDbFromCoherency(-1.0000001)).toBe(SUM_FLOOR_DB);
    expect(sumDbFromCoherency(Number.NaN)).toBeNaN();
  });
});

describe('zones thinner than one microphone alone', () => {
  it('of 1 ms: 333 to 667 Hz and repeats; inverted below 167 Hz and 833 to 1167 Hz', () => {
    const rounded = (polarity: Polarity): number[][] =>
      thinZonesHz(0.001, polarity, 1500).map((zone) => zone.map(Math.round));
    expect(rounded('same')).toEqual([
      [333, 667],
      [1333, 1500],
    ]);
    expect(rounded('inverted')).toEqual([
      [0, 167],
      [833, 1167],
    ]);
  });

  it('are where the comb lies below 0 dB re one of two equal microphones, and nowhere else', () => {
    const delay = fc.double({ min: 0.00002, max: 0.03, noNaN: true });
    const polarity = fc.constantFrom<Polarity>('same', 'inverted');
    const hz = fc.double({ min: 1, max: 19999, noNaN: true });
    fc.assert(
      fc.property(delay, polarity, hz, fc.boolean(), (tau, p, f, early) => {
        const { reLouderDb } = combDb(f, early ? -tau : tau, p);
        if (Math.abs(reLouderDb) < 1e-6) return;
        const inside = thinZonesHz(early ? -tau : tau, p).some(([low, high]) => f > low && f < high);
        expect(inside).toBe(reLouderDb < 0);
      }),
      { numRuns: 500 },
    );
  });

  it('lie round the notches', () => {
    for (const p of ['same', 'inverted'] as const) {
      const zones = thinZonesHz(0.00073, p);
      const notches = notchesHz(0.00073, p);
      expect(zones.length).toBe(notches.length);
      for (const [i, notch] of notches.entries()) {
        expect(zones[i]?.[0]).toBeLessThanOrEqual(notch);
        expect(zones[i]?.[1]).toBeGreaterThanOrEqual(notch);
      }
    }
  });

  it('need a delay, or an inversion', () => {
    expect(thinZonesHz(0, 'same')).toEqual([]);
    expect(thinZonesHz(0, 'inverted', 5000)).toEqual([[0, 5000]]);
    expect(thinZonesHz(Number.NaN, 'same')).toEqual([]);
    expect(thinZonesHz(0.001, 'same', 0)).toEqual([]);
  });
});

describe('the coherency after a move', () => {
  const coherency = (hz: number, tau: number): [number, number] => [
    Math.cos(2 * Math.PI * hz * tau),
    -Math.sin(2 * Math.PI * hz * tau),
  ];
  it('of a pure delay is 1 everywhere once the delay is taken away, −1 inverted', () => {
    for (const hz of [50, 333, 4000]) {
      const [re, im] = coherency(hz, 0.0017);
      expect(predictedCoherency(re, im, hz, 0.0017, false)).toBeCloseTo(1, 12);
      expect(predictedCoherency(re, im, hz, 0.0017, true)).toBeCloseTo(-1, 12);
      expect(predictedCoherency(re, im, hz, 0, false)).toBe(re);
    }
  });
  it('is the comb of what remains of the delay', () => {
    const [re, im] = coherency(700, 0.0012);
    expect(sumDbFromCoherency(predictedCoherency(re, im, 700, 0.0005, true))).toBeCloseTo(
      combDb(700, 0.0007, 'inverted').rePowerSumDb,
      9,
    );
  });
  it('keeps NaN, which stands for "not carried"', () => {
    expect(predictedCoherency(Number.NaN, Number.NaN, 100, 0.001, false)).toBeNaN();
  });
});
