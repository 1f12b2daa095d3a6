/**
 * Nothing comes out over the ceiling: the gain falls at once with the first sample that would, for both ears alike, and comes
 * back within a tenth of a second. It looks ahead at nothing, so it adds no delay, and what stays below passes untouched. Loops
 * are matched below it, so only live sound ever meets it.
 */
const BACK_SECONDS = 0.1;

export class Ceiling {
  private readonly ceiling: number;
  private readonly back: number;
  /** highest of late, falling */
  private high = 0;

  constructor(sampleRate: number, ceilingDbfs: number) {
    this.ceiling = 10 ** (ceilingDbfs / 20);
    this.back = Math.exp(-1 / (BACK_SECONDS * sampleRate));
  }

  /** Real-time safe: yes. */
  run(left: Float64Array, right: Float64Array, n: number): void {
    const { ceiling, back } = this;
    let { high } = this;
    for (let i = 0; i < n; i++) {
      const x = left[i] as number;
      const y = right[i] as number;
      high *= back;
      if (x > high) high = x;
      else if (-x > high) high = -x;
      if (y > high) high = y;
      else if (-y > high) high = -y;
      if (high > ceiling) {
        left[i] = (x * ceiling) / high;
        right[i] = (y * ceiling) / high;
      }
    }
    this.high = high;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.high = 0;
  }
}
