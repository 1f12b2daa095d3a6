/**
 * The correlation curve of the attacks of several hits: their cross-spectra, each scaled to equal energy, averaged, weighted by
 * their coherence over the hits and partially whitened, and transformed back once.
 */
import type FFT from 'fft.js';
import { STORED_HITS } from '../hit/hitStore';
import type { Gcc } from '../signal/gcc';
import { room64 } from '../signal/room';
import { transformOf } from '../signal/transforms';
import { type CurveTuning, FIT } from '../tuning/estimateTuning';

export class AttackCurve {
  /** −1…+1, lag k − maxLagSamples at k */
  readonly curve: Float64Array;
  /** of the whitening */
  private readonly exponent: number;
  private readonly lowBin: number;
  private readonly bins: number;
  private readonly fft: FFT;
  private readonly input: Float64Array;
  private readonly output: Float64Array;
  /** cross- and power spectra of the kept hits, slot after slot */
  private readonly re: Float64Array;
  private readonly im: Float64Array;
  private readonly aa: Float64Array;
  private readonly bb: Float64Array;
  /** of the hits that are averaged */
  private readonly sumRe: Float64Array;
  private readonly sumIm: Float64Array;
  private readonly sumA: Float64Array;
  private readonly sumB: Float64Array;

  /** @param size of the transform by which the hits' spectra are made */
  constructor(
    sampleRate: number,
    private readonly maxLagSamples: number,
    private readonly size: number,
    tuning: CurveTuning = FIT.curve,
  ) {
    this.exponent = -tuning.beta / 2;
    this.lowBin = Math.max(1, Math.ceil((tuning.lowHz * size) / sampleRate));
    this.bins = Math.min(size / 2 - 1, Math.floor((tuning.highHz * size) / sampleRate)) - this.lowBin + 1;
    this.fft = transformOf(size);
    this.input = new Float64Array(2 * size);
    this.output = new Float64Array(2 * size);
    this.re = room64(STORED_HITS * this.bins);
    this.im = room64(STORED_HITS * this.bins);
    this.aa = room64(STORED_HITS * this.bins);
    this.bb = room64(STORED_HITS * this.bins);
    this.sumRe = new Float64Array(this.bins);
    this.sumIm = new Float64Array(this.bins);
    this.sumA = new Float64Array(this.bins);
    this.sumB = new Float64Array(this.bins);
    this.curve = new Float64Array(2 * maxLagSamples + 1);
    for (let i = 0; i < 3; i++) this.fft.inverseTransform(this.output, this.input);
  }

  /** Keep the spectra of a hit, scaled to equal energy. Real-time safe: yes. */
  keep(slot: number, gcc: Gcc): void {
    let ea = 0;
    let eb = 0;
    for (let k = 0; k < this.bins; k++) {
      const j = k + this.lowBin;
      ea += (gcc.aRe[j] as number) ** 2 + (gcc.aIm[j] as number) ** 2;
      eb += (gcc.bRe[j] as number) ** 2 + (gcc.bIm[j] as number) ** 2;
    }
    const ok = ea > 1e-30 && eb > 1e-30;
    const wa = ok ? 1 / ea : 0;
    const wb = ok ? 1 / eb : 0;
    const w = Math.sqrt(wa * wb);
    const base = slot * this.bins;
    for (let k = 0; k < this.bins; k++) {
      const j = k + this.lowBin;
      const ar = gcc.aRe[j] as number;
      const ai = gcc.aIm[j] as number;
      const br = gcc.bRe[j] as number;
      const bi = gcc.bIm[j] as number;
      this.re[base + k] = (ar * br + ai * bi) * w;
      this.im[base + k] = (ar * bi - ai * br) * w;
      this.aa[base + k] = (ar * ar + ai * ai) * wa;
      this.bb[base + k] = (br * br + bi * bi) * wb;
    }
  }

  /** One hit after the other: its bins lie side by side. */
  private addUp(slots: Int32Array, n: number): void {
    const { re, im, aa, bb, bins, sumRe, sumIm, sumA, sumB } = this;
    sumRe.fill(0);
    sumIm.fill(0);
    sumA.fill(0);
    sumB.fill(0);
    for (let i = 0; i < n; i++) {
      const base = (slots[i] as number) * bins;
      for (let k = 0; k < bins; k++) {
        sumRe[k] = (sumRe[k] as number) + (re[base + k] as number);
        sumIm[k] = (sumIm[k] as number) + (im[base + k] as number);
        sumA[k] = (sumA[k] as number) + (aa[base + k] as number);
        sumB[k] = (sumB[k] as number) + (bb[base + k] as number);
      }
    }
  }

  /** The curve of n hits (slots). One transform. Real-time safe: yes. */
  average(slots: Int32Array, n: number): void {
    const z = this.input;
    z.fill(0);
    this.addUp(slots, n);
    const { sumRe, sumIm, sumA, sumB } = this;
    let norm = 0;
    for (let k = 0; k < this.bins; k++) {
      const re = sumRe[k] as number;
      const im = sumIm[k] as number;
      const aa = sumA[k] as number;
      const bb = sumB[k] as number;
      const power = re * re + im * im;
      if (!(power > 1e-40) || !(aa * bb > 0)) continue;
      const coherence = Math.min(1, power / (aa * bb));
      const w = coherence * power ** this.exponent;
      norm += Math.sqrt(power) * w;
      const j = k + this.lowBin;
      z[2 * j] = re * w;
      z[2 * j + 1] = im * w;
      z[2 * (this.size - j)] = re * w;
      z[2 * (this.size - j) + 1] = -im * w;
    }
    if (norm <= 0) {
      this.curve.fill(0);
      return;
    }
    this.fft.inverseTransform(this.output, z);
    const scale = this.size / (2 * norm);
    const m = this.maxLagSamples;
    for (let lag = -m; lag <= m; lag++)
      this.curve[lag + m] = (this.output[2 * (lag < 0 ? lag + this.size : lag)] as number) * scale;
  }
}
