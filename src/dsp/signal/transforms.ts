/** Transforms, made once a size: they keep nothing from call to call, so that all who need a size share one. */
import FFT from 'fft.js';
import { room64 } from './room';

const made = new Map<number, FFT>();

/** @param size a power of two. Real-time safe: no (allocates when a size is new). */
export function transformOf(size: number): FFT {
  let fft = made.get(size);
  if (!fft) {
    fft = new FFT(size);
    // its factors outside the collected heap: a thread's heap that grows by a megabyte is cleaned up in full once
    fft.table = Float64Array.from(fft.table);
    made.set(size, fft);
  }
  return fft;
}

/** pieces of a transform in pieces */
export const PARTS = 4;

/**
 * A large transform in pieces, so that none costs much at once: every fourth value is transformed by itself, and the four are
 * put together (decimation in time, radix 4; A. V. Oppenheim, R. W. Schafer, "Discrete-Time Signal Processing", ch. 9).
 * X[k] = Σ x[n]·exp(−j2πkn/size), interleaved re, im. Use: `part` 0…PARTS−1 of one input, then `join` or `put`.
 */
export class TransformInParts {
  private readonly quarter: number;
  private readonly fft: FFT;
  private readonly gathered: Float64Array;
  private readonly parts: Float64Array[] = [];
  /** exp(−j2πi/size), interleaved */
  private readonly turns: Float64Array;

  /** @param size a power of two ≥ 16 */
  constructor(readonly size: number) {
    this.quarter = size / PARTS;
    this.fft = transformOf(this.quarter);
    this.gathered = room64(2 * this.quarter);
    for (let r = 0; r < PARTS; r++) this.parts.push(room64(2 * this.quarter));
    this.turns = new Float64Array(2 * size);
    for (let i = 0; i < size; i++) {
      this.turns[2 * i] = Math.cos((2 * Math.PI * i) / size);
      this.turns[2 * i + 1] = -Math.sin((2 * Math.PI * i) / size);
    }
  }

  /** Transform every fourth value from the r-th on. Real-time safe: yes. */
  part(input: Float64Array, r: number): void {
    const { gathered, quarter } = this;
    for (let n = 0; n < quarter; n++) {
      const at = 2 * (PARTS * n + r);
      gathered[2 * n] = input[at] as number;
      gathered[2 * n + 1] = input[at + 1] as number;
    }
    this.fft.transform(this.parts[r] as Float64Array, gathered);
  }

  /** All of X into `out`. Real-time safe: yes. */
  join(out: Float64Array): void {
    const { quarter, turns, parts } = this;
    // one by one: taking a list apart makes garbage
    const y0 = parts[0] as Float64Array;
    const y1 = parts[1] as Float64Array;
    const y2 = parts[2] as Float64Array;
    const y3 = parts[3] as Float64Array;
    const step = 2 * quarter;
    for (let k = 0; k < quarter; k++) {
      const re = 2 * k;
      const im = re + 1;
      const ar = y0[re] as number;
      const ai = y0[im] as number;
      const br = turned(y1, turns, re, re);
      const bi = turnedIm(y1, turns, re, re);
      const cr = turned(y2, turns, re, 2 * re);
      const ci = turnedIm(y2, turns, re, 2 * re);
      const dr = turned(y3, turns, re, 3 * re);
      const di = turnedIm(y3, turns, re, 3 * re);
      out[re] = ar + br + cr + dr;
      out[im] = ai + bi + ci + di;
      out[re + step] = ar + bi - cr - di;
      out[im + step] = ai - br - ci + dr;
      out[re + 2 * step] = ar - br + cr - dr;
      out[im + 2 * step] = ai - bi + ci - di;
      out[re + 3 * step] = ar - bi - cr + di;
      out[im + 3 * step] = ai + br - ci - dr;
    }
  }

  /** X[k] alone, k 0…size−1, into out[2·at] and out[2·at + 1]. Real-time safe: yes. */
  put(k: number, out: Float64Array, at: number): void {
    const { size, quarter, turns } = this;
    const from = 2 * (k & (quarter - 1));
    let re = 0;
    let im = 0;
    for (let r = 0; r < PARTS; r++) {
      const y = this.parts[r] as Float64Array;
      const turn = 2 * ((r * k) & (size - 1));
      re += turned(y, turns, from, turn);
      im += turnedIm(y, turns, from, turn);
    }
    out[2 * at] = re;
    out[2 * at + 1] = im;
  }
}

/** Re and Im of y at `i` times the turn at `t`. */
const turned = (y: Float64Array, turns: Float64Array, i: number, t: number): number =>
  (y[i] as number) * (turns[t] as number) - (y[i + 1] as number) * (turns[t + 1] as number);
const turnedIm = (y: Float64Array, turns: Float64Array, i: number, t: number): number =>
  (y[i] as number) * (turns[t + 1] as number) + (y[i + 1] as number) * (turns[t] as number);
