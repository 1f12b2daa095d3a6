/** A signal at a half, a quarter … of its rate: what lies above the new rate's half is filtered out first. */

/** taps on either side of the middle, per unit of the factor */
const TAPS = 16;
/** where the filter is half-way down, of the new rate */
const CUTOFF = 0.46;

/** Windowed sinc (Blackman window; A. V. Oppenheim, R. W. Schafer, "Discrete-Time Signal Processing", ch. 7), no delay. */
export class Decimator {
  /** frames that it looks ahead, and back */
  readonly reach: number;
  private readonly taps: Float64Array;

  /** @param factor a whole number from 1 on; 1: nothing is filtered */
  constructor(readonly factor: number) {
    this.reach = factor === 1 ? 0 : TAPS * factor;
    const cutoff = CUTOFF / factor;
    this.taps = Float64Array.from({ length: 2 * this.reach + 1 }, (_, i) => {
      const n = i - this.reach;
      if (n === 0) return factor === 1 ? 1 : 2 * cutoff;
      const turn = (Math.PI * n) / (this.reach + 1);
      const window = 0.42 + 0.5 * Math.cos(turn) + 0.08 * Math.cos(2 * turn);
      return (Math.sin(2 * Math.PI * cutoff * n) / (Math.PI * n)) * window;
    });
    const sum = this.taps.reduce((all, tap) => all + tap, 0);
    for (let i = 0; i < this.taps.length; i++) this.taps[i] = (this.taps[i] as number) / sum;
  }

  /** frames from which n values are made */
  framesFor(n: number): number {
    return (n - 1) * this.factor + 1 + 2 * this.reach;
  }

  /** The lowered signal at `reach`, `reach` + `factor` … of x, n values. Real-time safe: yes. */
  run(x: Float64Array, out: Float64Array, n: number): void {
    const { taps, reach, factor } = this;
    for (let i = 0; i < n; i++) {
      const first = i * factor;
      const last = first + 2 * reach;
      let sum = (taps[reach] as number) * (x[first + reach] as number);
      // the taps are alike on either side
      for (let k = 0; k < reach; k++) sum += (taps[k] as number) * ((x[first + k] as number) + (x[last - k] as number));
      out[i] = sum;
    }
  }
}
