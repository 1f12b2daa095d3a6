/**
 * What a hit's A and B have in common at every lag, band by band: the band's part of their correlation, from the cross
 * spectrum, so that a sum can be told for any delay of one against the other. Two inverse transforms a hit and three small ones,
 * in pieces.
 *
 * Value at lag d = Σ over the band's bins of Re(conj(A)·B·exp(+j2πfd)): with B's delay fallen by d, what A·B adds up to, in
 * the units of the hit's band powers. At lag 0 it is the zero-lag product.
 */
import type FFT from 'fft.js';
import { BAND_COUNT, BANDS, LOW_OCTAVES_HZ, SUM_BAND } from '../../reading/bands';
import { LAGRANGE_BEFORE, LAGRANGE_VALUES, lagrangeWeights } from '../../reading/interpolate';
import { type BinBand, binBand, binShare } from '../signal/binBand';
import { room32, room64 } from '../signal/room';
import { PARTS, type TransformInParts, transformOf } from '../signal/transforms';

/** bands below this are told at every LOW_STEP-th lag: they carry nothing above */
const LOW_BELOW_HZ = 1000;
const LOW_STEP = 8;
/** lags on either side of one that is asked for, for interpolation */
const MARGIN = 3;

/** Bands with a curve: the sum's whole band, BANDS, LOW_OCTAVES_HZ. */
export const LAG_BANDS = 1 + BAND_COUNT + LOW_OCTAVES_HZ.length;
export const WHOLE_BAND = 0;
export const fixedBand = (b: number): number => 1 + b;
export const lowOctave = (k: number): number => 1 + BAND_COUNT + k;

const EDGES: readonly { lowHz: number; highHz: number }[] = [
  SUM_BAND,
  ...BANDS,
  ...LOW_OCTAVES_HZ.map((lowHz) => ({ lowHz, highHz: 2 * lowHz })),
];

/** Spectra of one hit, bins 0…size/2. */
export interface HitBins {
  aRe: Float64Array;
  aIm: Float64Array;
  bRe: Float64Array;
  bIm: Float64Array;
}

export class SumLags {
  /** of LAG_BANDS bands: powers of A and B, slot after slot */
  readonly powerA: Float64Array;
  readonly powerB: Float64Array;
  private readonly lowFft: FFT;
  private readonly input: Float64Array;
  private readonly output: Float64Array;
  private readonly lowInput: Float64Array;
  private readonly lowOutput: Float64Array;
  private readonly bands: BinBand[] = [];
  /** lags between two values of a band's curve, and its half-length in values */
  private readonly step = new Int32Array(LAG_BANDS);
  private readonly half = new Int32Array(LAG_BANDS);
  private readonly curves: Float32Array[] = [];
  /** of the values round a lag that lies 0…LOW_STEP−1 after one */
  private readonly weights: Float64Array;
  /** a curve of several hits, added up */
  private readonly together: Float64Array;
  /** two bands at a time; −1: no second one */
  private readonly first: Int32Array;
  private readonly second: Int32Array;
  /** the round that is under way, and the next piece of it */
  private round = 0;
  private piece = 0;

  /**
   * @param binHz width of a bin; @param transform its size ≥ 64
   * @param maxLag largest |lag| that can be asked for, samples; below half the size − 32
   */
  constructor(
    binHz: number,
    private readonly transform: TransformInParts,
    maxLag: number,
    slots: number,
  ) {
    const { size } = transform;
    if (maxLag >= size / 2 - (MARGIN + 1) * LOW_STEP)
      throw new RangeError(`maxLag must be below ${size / 2 - (MARGIN + 1) * LOW_STEP} but was ${maxLag}`);
    this.lowFft = transformOf(size / LOW_STEP);
    this.input = room64(2 * size);
    this.output = room64(2 * (2 * (maxLag + MARGIN) + 1));
    this.lowInput = room64((2 * size) / LOW_STEP);
    this.lowOutput = room64((2 * size) / LOW_STEP);
    this.weights = new Float64Array(LOW_STEP * LAGRANGE_VALUES);
    for (let phase = 0; phase < LOW_STEP; phase++)
      this.weights.set(lagrangeWeights(phase / LOW_STEP), phase * LAGRANGE_VALUES);
    this.together = new Float64Array(2 * (maxLag + MARGIN) + 1);
    this.powerA = room64(slots * LAG_BANDS);
    this.powerB = room64(slots * LAG_BANDS);
    const low: number[] = [];
    const high: number[] = [];
    for (const [i, { lowHz, highHz }] of EDGES.entries()) {
      const isLow = highHz < LOW_BELOW_HZ;
      const last = isLow ? size / LOW_STEP / 2 - 1 : size / 2 - 1;
      this.bands.push(binBand(lowHz, highHz, binHz, last));
      this.step[i] = isLow ? LOW_STEP : 1;
      this.half[i] = Math.ceil(maxLag / (this.step[i] as number)) + MARGIN;
      this.curves.push(room32(slots * (2 * (this.half[i] as number) + 1)));
      (isLow ? low : high).push(i);
    }
    const pairs = [high, low].flatMap((list) =>
      list.flatMap((band, k) => (k % 2 === 0 ? [{ band, other: list[k + 1] ?? -1 }] : [])),
    );
    this.first = Int32Array.from(pairs, ({ band }) => band);
    this.second = Int32Array.from(pairs, ({ other }) => other);
  }

  /** One piece of a hit's powers and curves. Real-time safe: yes. @returns whether that was the last */
  work(bins: HitBins, slot: number): boolean {
    const p = this.first[this.round] as number;
    const q = this.second[this.round] as number;
    if (this.step[p] === LOW_STEP) this.workOnLow(p, q, bins, slot);
    else if (!this.workOnHigh(p, q, bins, slot)) return false;
    this.piece = 0;
    this.round = (this.round + 1) % this.first.length;
    return this.round === 0;
  }

  private workOnLow(p: number, q: number, bins: HitBins, slot: number): void {
    const { lowInput, lowOutput } = this;
    lowInput.fill(0);
    this.put(p, bins, slot, lowInput, false);
    if (q >= 0) this.put(q, bins, slot, lowInput, true);
    // forward: the curve comes out with its lags turned round
    this.lowFft.transform(lowOutput, lowInput);
    const half = this.half[p] as number;
    const n = lowInput.length / 2;
    for (let i = -half; i <= half; i++) {
      // 0 − i: −0 is no whole number to a compiler, and has it begin anew each time
      const at = 2 * (i > 0 ? n - i : 0 - i);
      this.keep(p, slot, i, lowOutput, at);
      if (q >= 0) this.keep(q, slot, i, lowOutput, at + 1);
    }
  }

  /** @returns whether that was the round's last piece */
  private workOnHigh(p: number, q: number, bins: HitBins, slot: number): boolean {
    const { transform, input, output } = this;
    if (this.piece === 0) {
      input.fill(0);
      this.put(p, bins, slot, input, false);
      if (q >= 0) this.put(q, bins, slot, input, true);
    } else transform.part(input, this.piece - 1);
    if (this.piece++ < PARTS) return false;
    const half = this.half[p] as number;
    for (let i = -half; i <= half; i++) {
      transform.put(i > 0 ? transform.size - i : 0 - i, output, i + half);
      this.keep(p, slot, i, output, 2 * (i + half));
      if (q >= 0) this.keep(q, slot, i, output, 2 * (i + half) + 1);
    }
    return true;
  }

  /**
   * A value of a band's curve, from what the transform gives: there a bin and its mirror both count. By its place: a fraction
   * handed over would be an object each, 600 of them a hit.
   */
  private keep(band: number, slot: number, i: number, from: Float64Array, at: number): void {
    const half = this.half[band] as number;
    (this.curves[band] as Float32Array)[slot * (2 * half + 1) + half + i] = (from[at] as number) / 2;
  }

  /** A band's cross-spectrum: S, or i·S, with its mirror conjugated: S comes out as the real part, i·S as the imaginary one. */
  private put(band: number, { aRe, aIm, bRe, bIm }: HitBins, slot: number, into: Float64Array, second: boolean): void {
    const n = into.length / 2;
    let pa = 0;
    let pb = 0;
    const range = this.bands[band] as BinBand;
    for (let k = range.from; k <= range.to; k++) {
      const share = binShare(range, k);
      const ar = aRe[k] as number;
      const ai = aIm[k] as number;
      const br = bRe[k] as number;
      const bi = bIm[k] as number;
      pa += share * (ar * ar + ai * ai);
      pb += share * (br * br + bi * bi);
      const re = share * (ar * br + ai * bi);
      const im = share * (ar * bi - ai * br);
      const at = 2 * k;
      const mirror = 2 * (n - k);
      if (second) {
        into[at] = (into[at] as number) - im;
        into[at + 1] = (into[at + 1] as number) + re;
        into[mirror] = (into[mirror] as number) + im;
        into[mirror + 1] = (into[mirror + 1] as number) + re;
      } else {
        into[at] = (into[at] as number) + re;
        into[at + 1] = (into[at + 1] as number) + im;
        into[mirror] = (into[mirror] as number) + re;
        into[mirror + 1] = (into[mirror + 1] as number) - im;
      }
    }
    this.powerA[slot * LAG_BANDS + band] = pa;
    this.powerB[slot * LAG_BANDS + band] = pb;
  }

  /** Let the hit that is under way go. Real-time safe: yes. */
  clear(): void {
    this.round = 0;
    this.piece = 0;
  }

  /** A low band's curve at a lag, `lag` counted from its first value. */
  private between(curve: Float64Array, lag: number): number {
    const base = Math.floor(lag / LOW_STEP);
    const phase = lag - base * LOW_STEP;
    if (phase === 0) return curve[base] as number;
    let sum = 0;
    for (let j = 0; j < LAGRANGE_VALUES; j++)
      sum += (this.weights[phase * LAGRANGE_VALUES + j] as number) * (curve[base + j - LAGRANGE_BEFORE] as number);
    return sum;
  }

  /**
   * The curves of several hits at `count` lags `from`, `from` + `by` …, added up. Real-time safe: yes.
   * @param slots the hits, the first `hits` of them
   */
  addUp(
    band: number,
    slots: Int32Array,
    hits: number,
    from: number,
    count: number,
    out: Float64Array,
    by: number,
  ): void {
    const half = this.half[band] as number;
    const step = this.step[band] as number;
    const length = 2 * half + 1;
    const curve = this.curves[band] as Float32Array;
    if (step === 1) {
      out.fill(0, 0, count);
      for (let h = 0; h < hits; h++) {
        const at = (slots[h] as number) * length + half + from;
        for (let k = 0; k < count; k++) out[k] = (out[k] as number) + (curve[at + k * by] as number);
      }
      return;
    }
    // the values of the curve that these lags lie between, all hits together
    const first = Math.max(0, half + Math.floor(from / step) - MARGIN);
    const last = Math.min(length - 1, half + Math.ceil((from + (count - 1) * by) / step) + MARGIN);
    const { together } = this;
    together.fill(0, first, last + 1);
    for (let h = 0; h < hits; h++) {
      const at = (slots[h] as number) * length;
      for (let i = first; i <= last; i++) together[i] = (together[i] as number) + (curve[at + i] as number);
    }
    for (let k = 0; k < count; k++) out[k] = this.between(together, half * step + from + k * by);
  }
}
