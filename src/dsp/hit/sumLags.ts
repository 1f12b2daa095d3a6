/**
 * What a hit's A and B have in common at every lag, band by band: the band's part of their correlation, from the cross
 * spectrum, so that a sum can be told for any delay of one against the other. Three inverse transforms a hit.
 *
 * Value at lag d = Σ over the band's bins of Re(conj(A)·B·exp(+j2πfd)): with B's delay fallen by d, what A·B adds up to, in
 * the units of the hit's band powers. At lag 0 it is the zero-lag product.
 */
import type FFT from 'fft.js';
import { BAND_COUNT, BANDS, LOW_OCTAVES_HZ, SUM_BAND } from '../../reading/bands';
import { lagrange } from '../../reading/interpolate';
import { type BinBand, binBand, binShare } from '../signal/binBand';
import { transformOf } from '../signal/transforms';

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
  /** calls of `work` that one hit takes */
  readonly works: number;
  /** of LAG_BANDS bands: powers of A and B, slot after slot */
  readonly powerA: Float64Array;
  readonly powerB: Float64Array;
  private readonly fft: FFT;
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
  /** two bands at a time */
  private readonly rounds: (readonly [number, number])[] = [];

  /**
   * @param binHz width of a bin; @param size length of the transform, a power of two ≥ 64
   * @param maxLag largest |lag| that can be asked for, samples; below size/2 − 32
   */
  constructor(binHz: number, size: number, maxLag: number, slots: number) {
    if (maxLag >= size / 2 - (MARGIN + 1) * LOW_STEP)
      throw new RangeError(`maxLag must be below ${size / 2 - (MARGIN + 1) * LOW_STEP} but was ${maxLag}`);
    this.fft = transformOf(size);
    this.lowFft = transformOf(size / LOW_STEP);
    this.input = new Float64Array(2 * size);
    this.output = new Float64Array(2 * size);
    this.lowInput = new Float64Array((2 * size) / LOW_STEP);
    this.lowOutput = new Float64Array((2 * size) / LOW_STEP);
    this.powerA = new Float64Array(slots * LAG_BANDS);
    this.powerB = new Float64Array(slots * LAG_BANDS);
    const low: number[] = [];
    const high: number[] = [];
    for (const [i, { lowHz, highHz }] of EDGES.entries()) {
      const isLow = highHz < LOW_BELOW_HZ;
      const last = isLow ? size / LOW_STEP / 2 - 1 : size / 2 - 1;
      this.bands.push(binBand(lowHz, highHz, binHz, last));
      this.step[i] = isLow ? LOW_STEP : 1;
      this.half[i] = Math.ceil(maxLag / (this.step[i] as number)) + MARGIN;
      this.curves.push(new Float32Array(slots * (2 * (this.half[i] as number) + 1)));
      (isLow ? low : high).push(i);
    }
    for (const list of [high, low])
      for (let k = 0; k < list.length; k += 2) this.rounds.push([list[k] as number, list[k + 1] ?? -1]);
    this.works = this.rounds.length;
  }

  /** Powers, and curves of two more bands; `round` 0…works−1, in order. Real-time safe: yes. */
  work(round: number, bins: HitBins, slot: number): void {
    const [p, q] = this.rounds[round] as readonly [number, number];
    const low = this.step[p] === LOW_STEP;
    const input = low ? this.lowInput : this.input;
    const output = low ? this.lowOutput : this.output;
    input.fill(0);
    this.put(p, bins, slot, input, false);
    if (q >= 0) this.put(q, bins, slot, input, true);
    (low ? this.lowFft : this.fft).inverseTransform(output, input);
    // fft.js divides by its length; a bin stands for its mirror too
    this.take(p, slot, output, 0);
    if (q >= 0) this.take(q, slot, output, 1);
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

  private take(band: number, slot: number, output: Float64Array, part: 0 | 1): void {
    const n = output.length / 2;
    const half = this.half[band] as number;
    const curve = this.curves[band] as Float32Array;
    const at = slot * (2 * half + 1) + half;
    for (let i = -half; i <= half; i++) curve[at + i] = ((output[2 * (i < 0 ? i + n : i) + part] as number) * n) / 2;
  }

  /** The band's curve of a hit at a lag, samples. Real-time safe: yes. */
  at(band: number, slot: number, lag: number): number {
    const half = this.half[band] as number;
    const length = 2 * half + 1;
    return lagrange(this.curves[band] as Float32Array, slot * length, length, half + lag / (this.step[band] as number));
  }
}
