/**
 * Loudness by the coefficients that ITU-R BS.1770 prints for 48 kHz (from memory), as a response on the spectrum of one loop: no
 * filter is run, so that it shares nothing with the page's own measure.
 */
import FFT from 'fft.js';

const SHELF = {
  b: [1.53512485958697, -2.69169618940638, 1.19839281085285],
  a: [1, -1.69065929318241, 0.73248077421585],
};
const HIGH_PASS = { b: [1, -2, 1], a: [1, -1.99004745483398, 0.99007225036621] };

function power(taps: readonly number[], w: number): number {
  const re = taps.reduce((sum, tap, k) => sum + tap * Math.cos(w * k), 0);
  const im = taps.reduce((sum, tap, k) => sum + tap * Math.sin(w * k), 0);
  return re * re + im * im;
}

const weights = new Map<string, Float64Array>();

/** K's weight of each bin's power. */
function weightsOf(n: number, sampleRate: number): Float64Array {
  const known = weights.get(`${n} ${sampleRate}`);
  if (known) return known;
  const made = Float64Array.from({ length: n / 2 + 1 }, (_, bin) => {
    const w = (2 * Math.PI * bin * sampleRate) / n / 48_000;
    return (power(SHELF.b, w) / power(SHELF.a, w)) * (power(HIGH_PASS.b, w) / power(HIGH_PASS.a, w));
  });
  weights.set(`${n} ${sampleRate}`, made);
  return made;
}

/** @param ears each one loop, a power of two long, of any rate: what is printed is a weight for each frequency. LKFS, no gate */
export function printedLkfs(ears: readonly Float32Array[], sampleRate: number): number {
  let sum = 0;
  for (const ear of ears) {
    const n = ear.length;
    const weight = weightsOf(n, sampleRate);
    const fft = new FFT(n);
    const out = new Float64Array(2 * n);
    fft.realTransform(out, Float64Array.from(ear));
    for (let bin = 0; bin <= n / 2; bin++) {
      const gain = weight[bin] as number;
      const twice = bin === 0 || bin === n / 2 ? 1 : 2;
      sum += (twice * gain * ((out[2 * bin] as number) ** 2 + (out[2 * bin + 1] as number) ** 2)) / (n * n);
    }
  }
  return -0.691 + 10 * Math.log10(sum);
}
