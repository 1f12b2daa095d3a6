/** Slow, plain readings of a pair's attack, for checking the demo kit without the program's own engine. */

export interface AttackFit {
  /** B − A, samples */
  delaySamples: number;
  /** of the gain that fits B best onto A */
  sign: 1 | -1;
  /** what remains of B's energy, 0…1 */
  residue: number;
}

/** First sample from `from` on that exceeds `level`, or −1. */
export function firstAbove(x: Float64Array, from: number, to: number, level: number): number {
  for (let i = from; i < to; i++) if (Math.abs(x[i]) > level) return i;
  return -1;
}

/**
 * Brute force: B cut at every delay of a grid (half samples over the whole range, then hundredths near the best), the gain
 * by least squares, the smallest residue wins.
 * @param onset first sample of A's attack
 * @param before samples of quiet and `after` samples of attack that are compared
 */
export function fitAttack(
  a: Float64Array,
  b: Float64Array,
  onset: number,
  before: number,
  after: number,
  lowest: number,
  highest: number,
): AttackFit {
  const search = (from: number, to: number, step: number): AttackFit => {
    let best: AttackFit = { delaySamples: Number.NaN, sign: 1, residue: Number.POSITIVE_INFINITY };
    for (let delay = from; delay <= to; delay += step) {
      let aa = 0;
      let ab = 0;
      let bb = 0;
      for (let i = onset - before; i < onset + after; i++) {
        const moved = between(b, i + delay);
        aa += a[i] * a[i];
        ab += a[i] * moved;
        bb += moved * moved;
      }
      const residue = bb > 0 ? 1 - (ab * ab) / (aa * bb) : 1;
      if (residue < best.residue) best = { delaySamples: delay, sign: ab < 0 ? -1 : 1, residue };
    }
    return best;
  };
  const coarse = search(lowest, highest, 0.5);
  return search(coarse.delaySamples - 1, coarse.delaySamples + 1, 0.01);
}

/** Value between samples: sinc, Hann-windowed over 32 samples. */
function between(x: Float64Array, at: number): number {
  const centre = Math.floor(at);
  const part = at - centre;
  if (part < 1e-9) return x[centre];
  let sum = 0;
  for (let k = -15; k <= 16; k++) {
    const t = part - k;
    sum += x[centre + k] * (Math.sin(Math.PI * t) / (Math.PI * t)) * (0.5 + 0.5 * Math.cos((Math.PI * t) / 16.5));
  }
  return sum;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((p, q) => p - q);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half] : (sorted[half - 1] + sorted[half]) / 2;
}

/** Level of 40–250 Hz over that of 2–12 kHz around the loudest sample, dB: single bins of a plain transform, Hann window. */
export function tiltDb(x: Float64Array, rate: number): number {
  let top = 0;
  for (let i = 0; i < x.length; i++) if (Math.abs(x[i]) > Math.abs(x[top])) top = i;
  const frames = Math.round(0.1 * rate);
  const from = Math.max(0, Math.min(x.length - frames, top - (frames >> 1)));
  const power = (hz: number): number => {
    let re = 0;
    let im = 0;
    for (let i = 0; i < frames; i++) {
      const v = x[from + i] * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / frames));
      re += v * Math.cos((2 * Math.PI * hz * i) / rate);
      im += v * Math.sin((2 * Math.PI * hz * i) / rate);
    }
    return re * re + im * im;
  };
  const band = (low: number, high: number): number => {
    let sum = 0;
    for (let hz = low; hz <= high; hz += 10) sum += power(hz);
    return sum;
  };
  return 10 * Math.log10(band(40, 250) / band(2000, 12000));
}
