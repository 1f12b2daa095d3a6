import { room64 } from './room';

/** The last `capacity` samples of one channel, addressed by their absolute frame number. */
export class Ring {
  readonly capacity: number;
  private readonly data: Float64Array;
  private readonly mask: number;
  /** frames written so far: the next write goes to this frame number */
  end = 0;

  /** @param atLeast frames to remember; rounded up to a power of two */
  constructor(atLeast: number) {
    this.capacity = 2 ** Math.ceil(Math.log2(Math.max(2, atLeast)));
    this.mask = this.capacity - 1;
    this.data = room64(this.capacity);
  }

  /** Append the first n values of x. Real-time safe: yes. */
  push(x: Float64Array, n: number): void {
    const { data, mask, end } = this;
    const at = end & mask;
    if (at + n <= data.length) for (let i = 0; i < n; i++) data[at + i] = x[i] as number;
    else for (let i = 0; i < n; i++) data[(at + i) & mask] = x[i] as number;
    this.end = end + n;
  }

  /** Copy n samples from absolute frame `from` into `out` from `at` on; 0 outside what is remembered. Real-time safe: yes. */
  copy(from: number, out: Float64Array, n: number, at = 0): void {
    const { data, mask } = this;
    if (this.holds(from, from + n)) {
      for (let i = 0; i < n; i++) out[at + i] = data[(from + i) & mask] as number;
    } else for (let i = 0; i < n; i++) out[at + i] = this.at(from + i);
  }

  /** Largest |x| in the absolute frames from…to−1, of those that are remembered; 0 of none. Real-time safe: yes. */
  peak(from: number, to: number): number {
    const { data, mask } = this;
    const whole = this.holds(from, to);
    let most = 0;
    for (let n = from; n < to; n++) {
      const v = Math.abs(whole ? (data[n & mask] as number) : this.at(n));
      if (v > most) most = v;
    }
    return most;
  }

  private holds(from: number, to: number): boolean {
    return from >= 0 && to <= this.end && from >= this.end - this.capacity;
  }

  /** Sample at absolute frame `n`; 0 outside what is remembered. Real-time safe: yes. */
  at(n: number): number {
    if (n < 0 || n >= this.end || n < this.end - this.capacity) return 0;
    return this.data[n & this.mask] as number;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.data.fill(0);
    this.end = 0;
  }
}
