/** Two channels through one band: a second-order high-pass and low-pass each (Butterworth, 12 dB an octave on either side). */
import { Biquad, settleAll } from './filters';

export class BandPair {
  /** coefficients of the high-pass and of the low-pass: b0 (which is b2 as well), b1, a1, a2 of each. Side by side in memory */
  private readonly k = new Float64Array(8);
  /** memories of the sections: A high, B high, A low, B low */
  private readonly z = new Float64Array(8);

  constructor(sampleRate: number, lowHz: number, highHz: number) {
    const high = new Biquad('highpass', sampleRate, lowHz);
    const low = new Biquad('lowpass', sampleRate, highHz);
    this.k.set([high.b0, high.b1, high.a1, high.a2, low.b0, low.b1, low.a1, low.a2]);
  }

  /**
   * The first n values of a and b into outA and outB. Four recursions side by side cost hardly more than one; what else is done with
   * what comes out has a loop of its own, or there are too many numbers at once for the processor's registers.
   * Real-time safe: yes.
   */
  run(a: Float64Array, b: Float64Array, outA: Float64Array, outB: Float64Array, n: number): void {
    const { k, z } = this;
    const b0 = k[0] as number;
    const b1 = k[1] as number;
    const a1 = k[2] as number;
    const a2 = k[3] as number;
    const c0 = k[4] as number;
    const c1 = k[5] as number;
    const d1 = k[6] as number;
    const d2 = k[7] as number;
    let za = z[0] as number;
    let zb = z[1] as number;
    let ya = z[2] as number;
    let yb = z[3] as number;
    let va = z[4] as number;
    let vb = z[5] as number;
    let wa = z[6] as number;
    let wb = z[7] as number;
    for (let i = 0; i < n; i++) {
      const x = a[i] as number;
      const y = b[i] as number;
      const bx = b0 * x;
      const hx = bx + za;
      za = b1 * x - a1 * hx + zb;
      zb = bx - a2 * hx;
      const by = b0 * y;
      const hy = by + ya;
      ya = b1 * y - a1 * hy + yb;
      yb = by - a2 * hy;
      const cx = c0 * hx;
      const u = cx + va;
      va = c1 * hx - d1 * u + vb;
      vb = cx - d2 * u;
      const cy = c0 * hy;
      const v = cy + wa;
      wa = c1 * hy - d1 * v + wb;
      wb = cy - d2 * v;
      outA[i] = u;
      outB[i] = v;
    }
    z[0] = za;
    z[1] = zb;
    z[2] = ya;
    z[3] = yb;
    z[4] = va;
    z[5] = vb;
    z[6] = wa;
    z[7] = wb;
    settleAll(z);
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.z.fill(0);
  }
}
