/** One version being mixed out of what came in: the mixer has two of these and goes from one to the other. */
import { BASE_SAMPLES, TAPS, writeKernel } from './kernel';
import type { Mix } from './version';

/** A channel's past, twice in a row, so that any stretch of it lies in one piece. */
export class Past {
  private readonly samples: Float64Array;
  /** where the next one goes, 0…size − 1 */
  at = 0;

  constructor(readonly size: number) {
    this.samples = new Float64Array(2 * size);
  }

  /** Real-time safe: yes. */
  push(x: number): void {
    this.samples[this.at] = x;
    this.samples[this.at + this.size] = x;
    this.at = this.at + 1 === this.size ? 0 : this.at + 1;
  }

  /** Σ kernel[k] · the sample `back + k` before the next one, for n moments that end `end` before it. Real-time safe: yes. */
  filter(kernel: Float64Array, whole: number, n: number, out: Float64Array): void {
    const { samples, size, at } = this;
    for (let i = 0; i < n; i++) {
      // the place of the i-th of the newest n, so far back
      let from = at - n + i - whole;
      while (from < 0) from += size;
      if (from < TAPS) from += size;
      let sum = 0;
      for (let k = 0; k < TAPS; k++) sum += (kernel[k] as number) * (samples[from - k] as number);
      out[i] = sum;
    }
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.samples.fill(0);
  }
}

export class Slot {
  private readonly kernelA = new Float64Array(TAPS);
  private readonly kernelB = new Float64Array(TAPS);
  private readonly lateA: Float64Array;
  private readonly lateB: Float64Array;
  private wholeA = 0;
  private wholeB = 0;
  private aLeft = 0;
  private aRight = 0;
  private bLeft = 0;
  private bRight = 0;

  constructor(
    mostFrames: number,
    private readonly mostSamples: number,
  ) {
    this.lateA = new Float64Array(mostFrames);
    this.lateB = new Float64Array(mostFrames);
    writeKernel(this.kernelA, 0);
    writeKernel(this.kernelB, 0);
  }

  /** Longer delays than there is room for are cut to that. Real-time safe: yes. */
  set(mix: Mix): void {
    const a = Math.min(this.mostSamples, Math.max(0, mix.delayASamples));
    const b = Math.min(this.mostSamples, Math.max(0, mix.delayBSamples));
    this.wholeA = Math.floor(a);
    this.wholeB = Math.floor(b);
    writeKernel(this.kernelA, a - this.wholeA);
    writeKernel(this.kernelB, b - this.wholeB);
    this.aLeft = mix.aLeft;
    this.aRight = mix.aRight;
    this.bLeft = mix.bLeft;
    this.bRight = mix.bRight;
  }

  /** The newest n frames of the past, BASE_SAMPLES late. Real-time safe: yes. */
  render(a: Past, b: Past, n: number, left: Float64Array, right: Float64Array): void {
    const { lateA, lateB, aLeft, aRight, bLeft, bRight } = this;
    a.filter(this.kernelA, this.wholeA, n, lateA);
    b.filter(this.kernelB, this.wholeB, n, lateB);
    for (let i = 0; i < n; i++) {
      const x = lateA[i] as number;
      const y = lateB[i] as number;
      left[i] = aLeft * x + bLeft * y;
      right[i] = aRight * x + bRight * y;
    }
  }
}

/** Frames by which everything is late, whatever is chosen. */
export const LATENCY_SAMPLES = BASE_SAMPLES;
