/**
 * A speaker used as a mic, as simple as it can be: a second-order low-pass (Butterworth), so lows only, and late.
 * The corner is this bench's choice (common practice, no source); that the lows come √2/(2πf) later follows from the formula.
 */

export const SPEAKER_CORNER_HZ = 120;

/** Later than a mic at the same place by so much, in the lows, ms. */
export const SPEAKER_LATE_MS = (1000 * Math.SQRT2) / (2 * Math.PI * SPEAKER_CORNER_HZ);

/** Response at `hz`: 1/(1 + √2·s + s²), s = jf/fc, as real and imaginary part. */
export function speakerAt(hz: number): { re: number; im: number } {
  const w = hz / SPEAKER_CORNER_HZ;
  const [re, im] = [1 - w * w, Math.SQRT2 * w];
  const size = re * re + im * im;
  return { re: re / size, im: -im / size };
}
