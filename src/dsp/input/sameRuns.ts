/** How long both channels have been exactly zero, and how long exactly equal, in frames. */
export class SameRuns {
  zero = 0;
  equal = 0;

  /** n frames of each. Real-time safe: yes. */
  run(a: Float64Array, b: Float64Array, n: number): void {
    for (let i = 0; i < n; i++) {
      const x = a[i] as number;
      const y = b[i] as number;
      this.zero = x === 0 && y === 0 ? this.zero + 1 : 0;
      if (x !== y) this.equal = 0;
      else if (x !== 0) this.equal++;
    }
  }
}
