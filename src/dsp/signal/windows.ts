/** Windows that fade in and out by a raised cosine (half a period of a Hann window). */

/** 0 at 0 and before, 1 from `length` on, ½ − ½·cos(π·at/length) between. */
export function raisedCosine(at: number, length: number): number {
  if (at <= 0) return 0;
  return at >= length ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * at) / length);
}

export interface FadeOptions {
  /** samples that fade in, and out */
  fadeIn: number;
  fadeOut: number;
  /** where in its sample the fade is read: 0 (the first sample is 0, the last isn't) or 0.5 (both ends alike) */
  at?: 0 | 0.5;
  /** positions are divided by the fade's length before π comes in: another last bit in some samples, nothing else */
  asShare?: boolean;
}

/** A window of `length` samples, 1 between its fades. */
export function fadeWindow(length: number, { fadeIn, fadeOut, at = 0.5, asShare = false }: FadeOptions): Float64Array {
  const fade = (i: number, n: number): number => (asShare ? raisedCosine(i / n, 1) : raisedCosine(i, n));
  return Float64Array.from({ length }, (_, i) => Math.min(fade(i + at, fadeIn), fade(length - i - at, fadeOut)));
}
