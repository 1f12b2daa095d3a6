/** Small causal filters, one sample at a time. Real-time safe: yes, all of them. */

/** First-order high-pass (bilinear transform): causal, so it keeps the sign of a first motion. */
export class HighPass1 {
  private readonly b: number;
  private readonly a: number;
  private x1 = 0;
  private y1 = 0;

  constructor(sampleRate: number, cornerHz: number) {
    const k = Math.tan((Math.PI * cornerHz) / sampleRate);
    this.b = 1 / (1 + k);
    this.a = (1 - k) / (1 + k);
  }

  step(x: number): number {
    const y = this.b * (x - this.x1) + this.a * this.y1;
    this.x1 = x;
    this.y1 = Math.abs(y) < 1e-20 ? 0 : y;
    return y;
  }

  clear(): void {
    this.x1 = 0;
    this.y1 = 0;
  }
}

/** Second-order Butterworth section, transposed direct form II (coefficients: R. Bristow-Johnson's audio EQ cookbook, from memory). */
export class Biquad {
  private readonly b0: number;
  private readonly b1: number;
  private readonly b2: number;
  private readonly a1: number;
  private readonly a2: number;
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

  step(x: number): number {
    const y = this.b0 * x + this.z1;
    const z1 = this.b1 * x - this.a1 * y + this.z2;
    const z2 = this.b2 * x - this.a2 * y;
    // denormals would slow the audio thread down in long silences
    this.z1 = Math.abs(z1) < 1e-20 ? 0 : z1;
    this.z2 = Math.abs(z2) < 1e-20 ? 0 : z2;
    return y;
  }

  clear(): void {
    this.z1 = 0;
    this.z2 = 0;
  }
}
