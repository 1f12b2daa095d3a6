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

/** Low edges of the octaves in which the drum's own low band is looked for: mid 63, 125, 250, 500 Hz (base two: see dsp/signal/octaves). */
export const LOW_OCTAVES_HZ: readonly number[] = [1, 2, 3, 4].map((k) => (1000 / Math.SQRT2) * 2 ** (k - 5));

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
