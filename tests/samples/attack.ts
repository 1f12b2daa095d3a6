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
