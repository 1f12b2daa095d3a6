/** Small causal filters, a block at a time; y may be x. Real-time safe: yes, all of them. */

/** below this a filter's memory is nothing: denormals would slow the audio thread down in long silences */
const TINY = 1e-20;
export const settle = (v: number): number => (v > -TINY && v < TINY ? 0 : v);

/** The same for a list of memories: numbers handed to a function one by one may be boxed, which makes garbage. */
export function settleAll(z: Float64Array): void {
  for (let i = 0; i < z.length; i++) {
    const v = z[i] as number;
    if (v > -TINY && v < TINY) z[i] = 0;
  }
}

export interface Filter {
  /** Filter the first n values of x into y. */
  run(x: Float64Array, y: Float64Array, n: number): void;
  clear(): void;
}

/** First-order high-pass (bilinear transform): causal, so it keeps the sign of a first motion. */
export class HighPass1 implements Filter {
  readonly b: number;
  readonly a: number;
  private x1 = 0;
  private y1 = 0;

  constructor(sampleRate: number, cornerHz: number) {
    const k = Math.tan((Math.PI * Math.min(cornerHz, 0.45 * sampleRate)) / sampleRate);
    this.b = 1 / (1 + k);
    this.a = (1 - k) / (1 + k);
  }

  run(x: Float64Array, y: Float64Array, n: number): void {
    const { a, b } = this;
    let x1 = this.x1;
    let y1 = this.y1;
    for (let i = 0; i < n; i++) {
      const v = x[i] as number;
      y1 = b * (v - x1) + a * y1;
      x1 = v;
      y[i] = y1;
    }
    this.x1 = x1;
    this.y1 = settle(y1);
  }

  clear(): void {
    this.x1 = 0;
    this.y1 = 0;
  }
}

/** Second-order Butterworth section, transposed direct form II (R. Bristow-Johnson, Audio EQ Cookbook, W3C Note 2021, Q = 1/√2). */
export class Biquad implements Filter {
  readonly b0: number;
  readonly b1: number;
  readonly b2: number;
  readonly a1: number;
  readonly a2: number;
  private z1 = 0;
  private z2 = 0;

  constructor(kind: 'highpass' | 'lowpass', sampleRate: number, cornerHz: number) {
    const w = (2 * Math.PI * Math.min(cornerHz, 0.49 * sampleRate)) / sampleRate;
    const c = Math.cos(w);
    const alpha = Math.sin(w) / Math.SQRT2;
    const a0 = 1 + alpha;
    const side = kind === 'lowpass' ? (1 - c) / 2 : (1 + c) / 2;
    this.b0 = side / a0;
    this.b1 = ((kind === 'lowpass' ? 1 : -1) * 2 * side) / a0;
    this.b2 = side / a0;
    this.a1 = (-2 * c) / a0;
    this.a2 = (1 - alpha) / a0;
  }

  run(x: Float64Array, y: Float64Array, n: number): void {
    const { b0, b1, b2, a1, a2 } = this;
    let z1 = this.z1;
    let z2 = this.z2;
    for (let i = 0; i < n; i++) {
      const v = x[i] as number;
      const out = b0 * v + z1;
      z1 = b1 * v - a1 * out + z2;
      z2 = b2 * v - a2 * out;
      y[i] = out;
    }
    this.z1 = settle(z1);
    this.z2 = settle(z2);
  }

  clear(): void {
    this.z1 = 0;
    this.z2 = 0;
  }
}
