/**
 * Change of rate, and shifts by parts of a sample, by a windowed sinc: test support only. The phases that recur are worked
 * out once (rates are whole numbers of Hz).
 */

/**
 * - `converter`: a linear-phase anti-alias filter at 0.46 of the lower rate, 32 of its samples each side
 * - `interpolate`: values between samples of a signal that holds nothing near its half rate: 8 samples each side
 * - `full`: keeps up to 0.48 of the lower rate, 64 samples each side: for recordings that hold everything
 */
export type Filtering = 'converter' | 'interpolate' | 'full';

const SHAPES: Record<Filtering, { cutShare: number; half: number }> = {
  converter: { cutShare: 0.46, half: 32 },
  interpolate: { cutShare: 0.5, half: 8 },
  full: { cutShare: 0.48, half: 64 },
};

/** @returns floor(length·to/from) samples, the first at the first one's time; nothing is assumed beyond the ends but silence */
export function resample(x: ArrayLike<number>, fromRate: number, toRate: number, filtering: Filtering): Float64Array {
  const { cutShare, half } = SHAPES[filtering];
  const lower = filtering === 'interpolate' ? fromRate : Math.min(fromRate, toRate);
  const common = gcd(fromRate, toRate);
  const phases = toRate / common;
  const step = fromRate / common;
  const reach = Math.ceil((half * fromRate) / lower);
  const kernels = Array.from({ length: phases }, (_, p) =>
    kernel(((p * step) % phases) / phases, reach, (cutShare * lower) / fromRate),
  );
  const out = new Float64Array(Math.floor((x.length * toRate) / fromRate));
  for (let i = 0; i < out.length; i++) {
    const taps = kernels[i % phases] as Float64Array;
    const first = Math.floor((i * step) / phases) - reach + 1;
    out[i] = sumOf(x, first, taps);
  }
  return out;
}

/** x later by `samples`, which may be a fraction and negative; same length. Content up to 0.48 of the rate is kept. */
export function shift(x: ArrayLike<number>, samples: number): Float64Array {
  const whole = Math.floor(-samples);
  const { half } = SHAPES.full;
  const taps = kernel(-samples - whole, half, 0.5);
  return Float64Array.from({ length: x.length }, (_, i) => sumOf(x, i + whole - half + 1, taps));
}

/** Taps for the value at `fraction` past the sample at index reach − 1; DC gain 1. */
function kernel(fraction: number, reach: number, cut: number): Float64Array {
  const taps = new Float64Array(2 * reach);
  let sum = 0;
  for (let k = 0; k < taps.length; k++) {
    const t = k - reach + 1 - fraction;
    const angle = 2 * Math.PI * cut * t;
    const sinc = Math.abs(angle) < 1e-9 ? 1 : Math.sin(angle) / angle;
    // Blackman, zero at ±reach
    const w = Math.PI * (t / reach);
    const window = Math.abs(t) >= reach ? 0 : 0.42 + 0.5 * Math.cos(w) + 0.08 * Math.cos(2 * w);
    taps[k] = sinc * window;
    sum += taps[k];
  }
  return taps.map((v) => v / sum);
}

function sumOf(x: ArrayLike<number>, first: number, taps: Float64Array): number {
  let sum = 0;
  const from = Math.max(0, -first);
  const to = Math.min(taps.length, x.length - first);
  for (let k = from; k < to; k++) sum += taps[k] * x[first + k];
  return sum;
}

function gcd(p: number, q: number): number {
  return q === 0 ? p : gcd(q, p % q);
}
