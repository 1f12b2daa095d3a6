/**
 * Five bands of a track, each with a second-order low-pass and high-pass (the outer ones with one of them). A recursion waits for
 * itself, so four side by side cost hardly more than one; each comes out to the bit as `Biquad` gives it by itself.
 */
import { Biquad, settleAll } from '../../dsp/signal/filters';

export type FourEdges = readonly [number, number, number, number];
export const POWER_BANDS = 5;

export class BandPowers {
  /** b0, a1 and a2 of each section, in the order in which they are run. b2 is b0, b1 is twice b0, or minus that in a high-pass: exactly */
  private readonly k: Float64Array;
  /** two memories of each */
  private readonly z = new Float64Array(16);
  /** what lies above the second edge */
  private readonly upper: Float64Array;

  /** @param mostFrames of a run */
  constructor(sampleRate: number, edgesHz: FourEdges, mostFrames: number) {
    const sections = edgesHz.flatMap((hz) => [
      new Biquad('lowpass', sampleRate, hz),
      new Biquad('highpass', sampleRate, hz),
    ]);
    // the low-pass at the second edge takes what the high-pass at the first lets through, and so on
    const [l0, h0, l1, h1, l2, h2, l3, h3] = sections as [
      Biquad,
      Biquad,
      Biquad,
      Biquad,
      Biquad,
      Biquad,
      Biquad,
      Biquad,
    ];
    this.k = Float64Array.from([l0, h0, l1, h1, l2, h2, l3, h3].flatMap(({ b0, a1, a2 }) => [b0, a1, a2]));
    this.upper = new Float64Array(mostFrames);
  }

  /** @param x whole hops @param out the sum of squares of each band, hop by hop: POWER_BANDS numbers each */
  run(x: Float64Array, hops: number, hopFrames: number, out: Float64Array): void {
    const { upper } = this;
    this.four(0, x, x, hops, hopFrames, out, 0);
    // the third sum of the first four is written over
    this.four(1, upper, x, hops, hopFrames, out, 2);
    settleAll(this.z);
  }

  /** A low-pass of `low`; of x a high-pass and a low-pass behind it; and a high-pass of x, which is kept. Three bands of `out`, from `at` on. */
  private four(
    part: number,
    low: Float64Array,
    x: Float64Array,
    hops: number,
    hopFrames: number,
    out: Float64Array,
    at: number,
  ): void {
    const { k, z, upper } = this;
    const from = 12 * part;
    const pb = k[from] as number;
    const pa1 = k[from + 1] as number;
    const pa2 = k[from + 2] as number;
    const qb = k[from + 3] as number;
    const qa1 = k[from + 4] as number;
    const qa2 = k[from + 5] as number;
    const rb = k[from + 6] as number;
    const ra1 = k[from + 7] as number;
    const ra2 = k[from + 8] as number;
    const sb = k[from + 9] as number;
    const sa1 = k[from + 10] as number;
    const sa2 = k[from + 11] as number;
    const zAt = 8 * part;
    let p1 = z[zAt] as number;
    let p2 = z[zAt + 1] as number;
    let q1 = z[zAt + 2] as number;
    let q2 = z[zAt + 3] as number;
    let r1 = z[zAt + 4] as number;
    let r2 = z[zAt + 5] as number;
    let s1 = z[zAt + 6] as number;
    let s2 = z[zAt + 7] as number;
    for (let h = 0; h < hops; h++) {
      let pp = 0;
      let rr = 0;
      let ss = 0;
      const to = (h + 1) * hopFrames;
      for (let i = h * hopFrames; i < to; i++) {
        const v = x[i] as number;
        const tp = pb * (low[i] as number);
        const p = tp + p1;
        p1 = 2 * tp - pa1 * p + p2;
        p2 = tp - pa2 * p;
        const tq = qb * v;
        const q = tq + q1;
        q1 = -2 * tq - qa1 * q + q2;
        q2 = tq - qa2 * q;
        const tr = rb * q;
        const r = tr + r1;
        r1 = 2 * tr - ra1 * r + r2;
        r2 = tr - ra2 * r;
        const ts = sb * v;
        const s = ts + s1;
        s1 = -2 * ts - sa1 * s + s2;
        s2 = ts - sa2 * s;
        upper[i] = s;
        pp += p * p;
        rr += r * r;
        ss += s * s;
      }
      const o = POWER_BANDS * h + at;
      out[o] = pp;
      out[o + 1] = rr;
      out[o + 2] = ss;
    }
    z[zAt] = p1;
    z[zAt + 1] = p2;
    z[zAt + 2] = q1;
    z[zAt + 3] = q2;
    z[zAt + 4] = r1;
    z[zAt + 5] = r2;
    z[zAt + 6] = s1;
    z[zAt + 7] = s2;
  }
}
