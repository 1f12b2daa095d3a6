/** The bands and the frequency grid in which a reading says what the sum does. */

/** The fixed bands, Hz. */
export const BANDS = [
  { name: 'low', lowHz: 30, highHz: 150 },
  { name: 'body', lowHz: 150, highHz: 800 },
  { name: 'mid', lowHz: 800, highHz: 3000 },
  { name: 'attack', lowHz: 3000, highHz: 10000 },
] as const;
export type BandName = (typeof BANDS)[number]['name'];
export const BAND_COUNT = BANDS.length;

/** All that a sum is judged by, beside the drum's low octave. */
export const SUM_BAND = { lowHz: 30, highHz: 10000 } as const;

/** Low edges of the octaves in which the drum's low octave is looked for: mid 63, 125, 250, 500 Hz (base two: see dsp/signal/octaves). */
export const LOW_OCTAVES_HZ: readonly number[] = [1, 2, 3, 4].map((k) => (1000 / Math.SQRT2) * 2 ** (k - 5));

/** Octaves in which an input's own noise is followed: mid 250 Hz to 8 kHz; mains hum lies below. */
export const INPUT_BAND_COUNT = 6;
/** Edges of the band i, Hz. */
export function inputBandHz(i: number): { lowHz: number; highHz: number } {
  const midHz = 250 * 2 ** i;
  return { lowHz: midHz / Math.SQRT2, highHz: midHz * Math.SQRT2 };
}

export const SPECTRUM_POINTS = 241;
export const SPECTRUM_LOW_HZ = 20;
export const SPECTRUM_HIGH_HZ = 20000;
/** Frequency of grid point i, Hz: 20 Hz at 0, 20 kHz at SPECTRUM_POINTS−1, logarithmic. */
export function spectrumHz(i: number): number {
  return GRID_HZ[i] as number;
}
const GRID_HZ = Float64Array.from(
  { length: SPECTRUM_POINTS },
  (_, i) => SPECTRUM_LOW_HZ * (SPECTRUM_HIGH_HZ / SPECTRUM_LOW_HZ) ** (i / (SPECTRUM_POINTS - 1)),
);

/**
 * Where a reading tells what the sum comes to once one of the two is delayed: in the drum's low octave, in SUM_BAND, then in
 * each of BANDS; at NEAR_POINTS delays round the arrival, `nearStep` samples apart (at least ±1.2 ms).
 */
export const NEAR_BANDS = 2 + BAND_COUNT;
export const NEAR_HALF_POINTS = 60;
export const NEAR_POINTS = 2 * NEAR_HALF_POINTS + 1;
/** Samples between two of them: 1 below 88.2 kHz, then 2, 4 … */
export const nearStep = (sampleRate: number): number =>
  2 ** Math.max(0, Math.floor(Math.log2(sampleRate / NEAR_RATE_HZ)));
const NEAR_RATE_HZ = 44100;

/**
 * Where a reading tells the same round the present: so many steps of `nearStep` samples to either side (at least 60 cm of path
 * from 0 °C on, up to 53 kHz and at their multiples), every one or every few of them as high as a band goes, in the order of the near bands.
 */
export const HERE_REACH = 96;
export const HERE_STEPS: readonly number[] = [4, 1, 4, 4, 2, 1];
export const herePoints = (n: number): number => 2 * (HERE_REACH / (HERE_STEPS[n] as number)) + 1;
/** Where each band's values begin, and how many there are in all. */
export const HERE_BEGINS: readonly number[] = HERE_STEPS.map((_, n) =>
  HERE_STEPS.slice(0, n).reduce((sum, _step, k) => sum + herePoints(k), 0),
);
export const HERE_LENGTH = HERE_STEPS.reduce((sum, _, n) => sum + herePoints(n), 0);
