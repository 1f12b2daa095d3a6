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
    this.data = new Float64Array(this.capacity);
  }

  /** Append the first n values of x. Real-time safe: yes. */
  push(x: Float64Array, n: number): void {
    const { data, mask } = this;
    let end = this.end;
    for (let i = 0; i < n; i++) data[end++ & mask] = x[i] as number;
    this.end = end;
  }

  /** Copy n samples from absolute frame `from` into `out`; 0 outside what is remembered. Real-time safe: yes. */
  copy(from: number, out: Float64Array, n: number): void {
    const { data, mask } = this;
    if (from >= 0 && from + n <= this.end && from >= this.end - this.capacity) {
      for (let i = 0; i < n; i++) out[i] = data[(from + i) & mask] as number;
    } else for (let i = 0; i < n; i++) out[i] = this.at(from + i);
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
