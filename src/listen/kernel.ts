/** Delay by fractions of a sample: sinc under a Kaiser window (Laakso et al., “Splitting the unit delay”, IEEE Signal Processing Magazine 13(1), 1996; from memory). */

/** length of a kernel; A and B both go through one, so the latency is the same whatever the fraction */
export const TAPS = 64;
/** samples that a kernel of fraction 0 delays by */
export const BASE_SAMPLES = TAPS / 2 - 1;
/** Kaiser's β: stop band below −80 dB, the pass band flat as far as 0.9 of half the rate */
const BETA = 8;

/** I0, by its power series; no branch of it allocates. */
function besselI0(x: number): number {
  const half = (x / 2) ** 2;
  let term = 1;
  let sum = 1;
  for (let k = 1; k < 60 && term > 1e-18 * sum; k++) {
    term *= half / (k * k);
    sum += term;
  }
  return sum;
}

/**
 * Writes the kernel that delays by BASE_SAMPLES + fraction. Of fraction 0 it is a single 1: what isn't delayed isn't touched.
 * Real-time safe: yes.
 * @param into length TAPS
 * @param fraction 0…1, 1 excluded
 */
export function writeKernel(into: Float64Array, fraction: number): void {
  if (into.length !== TAPS) throw new RangeError(`must have length ${TAPS} but had length ${into.length}`);
  let sum = 0;
  for (let k = 0; k < TAPS; k++) {
    const x = k - BASE_SAMPLES - fraction;
    const edge = x / (TAPS / 2);
    const window = Math.abs(edge) >= 1 ? 0 : besselI0(BETA * Math.sqrt(1 - edge * edge));
    const value = (x === 0 ? 1 : fraction === 0 ? 0 : Math.sin(Math.PI * x) / (Math.PI * x)) * window;
    into[k] = value;
    sum += value;
  }
  // exactly 1 at 0 Hz
  for (let k = 0; k < TAPS; k++) into[k] = (into[k] as number) / sum;
}
