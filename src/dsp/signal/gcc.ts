/**
 * Generalized cross-correlation with partial whitening of two real frames, one complex transform each way.
 * Source: C. H. Knapp, G. C. Carter, IEEE Trans. ASSP 24 (1976) 320–327 (PHAT: beta 1; plain: beta 0);
 * partial whitening: Donohue et al., SoutheastCon 2007.
 *
 * Use: `load` both frames, `forward()` (one transform), then `correlate()` (one transform), then read `curve`.
 */
import type FFT from 'fft.js';
import { transformOf } from './transforms';

const NEWTON_STEPS = 4;

export interface GccOptions {
  /** band that counts, Hz */
  lowHz: number;
  highHz: number;
  /** 0 plain … 1 PHAT: the cross-spectrum is divided by |S|^beta */
  beta: number;
  /** half-length of the curve, samples */
  maxLagSamples: number;
}

export class Gcc {
  readonly size: number;
  readonly maxLagSamples: number;
  /** time-domain frames, length `size`; fill before `forward` */
  readonly frameA: Float64Array;
  readonly frameB: Float64Array;
  /** spectra after `forward`: bins 0…size/2 */
  readonly aRe: Float64Array;
  readonly aIm: Float64Array;
  readonly bRe: Float64Array;
  readonly bIm: Float64Array;
  /** after `correlate`: −1…+1, lag k−maxLagSamples at index k; positive lag: B later */
  readonly curve: Float64Array;
  readonly lowBin: number;
  readonly highBin: number;
  private readonly beta: number;
  private readonly fft: FFT;
  private readonly input: Float64Array;
  private readonly output: Float64Array;

  /**
   * @param size power of two, at least frame length + maxLagSamples (else lags wrap round)
   * @throws RangeError when size is no power of two or the curve does not fit
   */
  constructor(sampleRate: number, size: number, options: GccOptions) {
    if (size < 8 || (size & (size - 1)) !== 0) throw new RangeError(`size must be a power of two but was ${size}`);
    if (options.maxLagSamples >= size / 2)
      throw new RangeError(`maxLagSamples must be below ${size / 2} but was ${options.maxLagSamples}`);
    this.size = size;
    this.maxLagSamples = options.maxLagSamples;
    this.beta = options.beta;
    this.frameA = new Float64Array(size);
    this.frameB = new Float64Array(size);
    const bins = size / 2 + 1;
    this.aRe = new Float64Array(bins);
    this.aIm = new Float64Array(bins);
    this.bRe = new Float64Array(bins);
    this.bIm = new Float64Array(bins);
    this.curve = new Float64Array(2 * options.maxLagSamples + 1);
    this.lowBin = Math.max(1, Math.ceil((options.lowHz * size) / sampleRate));
    this.highBin = Math.min(size / 2 - 1, Math.floor((options.highHz * size) / sampleRate));
    this.fft = transformOf(size);
    this.input = new Float64Array(2 * size);
    this.output = new Float64Array(2 * size);
    // the first calls cost ten times more: have them here, not while a drum is being hit
    for (let i = 0; i < 3; i++) {
      this.forward();
      this.correlate();
    }
  }

  /** Spectra of both frames by one transform of A + iB. Real-time safe: yes. */
  forward(): void {
    const n = this.size;
    for (let i = 0; i < n; i++) {
      this.input[2 * i] = this.frameA[i] as number;
      this.input[2 * i + 1] = this.frameB[i] as number;
    }
    this.fft.transform(this.output, this.input);
    splitSpectra(this.output, n, this.aRe, this.aIm, this.bRe, this.bIm);
  }

  /** The curve from the spectra. Real-time safe: yes. */
  correlate(): void {
    const n = this.size;
    const z = this.input;
    z.fill(0);
    let norm = 0;
    const power = -this.beta / 2;
    for (let k = this.lowBin; k <= this.highBin; k++) {
      const ar = this.aRe[k] as number;
      const ai = this.aIm[k] as number;
      const br = this.bRe[k] as number;
      const bi = this.bIm[k] as number;
      // conj(A)·B
      let re = ar * br + ai * bi;
      let im = ar * bi - ai * br;
      const mag2 = re * re + im * im;
      if (!(mag2 > 1e-60)) continue;
      const w = this.beta === 0 ? 1 : mag2 ** power;
      re *= w;
      im *= w;
      norm += Math.sqrt(mag2) * w;
      z[2 * k] = re;
      z[2 * k + 1] = im;
      z[2 * (n - k)] = re;
      z[2 * (n - k) + 1] = -im;
    }
    if (norm <= 0) {
      this.curve.fill(0);
      return;
    }
    this.fft.inverseTransform(this.output, z);
    // fft.js divides by n; the band's bins count twice
    const scale = n / (2 * norm);
    const m = this.maxLagSamples;
    for (let lag = -m; lag <= m; lag++) {
      this.curve[lag + m] = (this.output[2 * (lag < 0 ? lag + n : lag)] as number) * scale;
    }
  }

  /**
   * The extremum of that sign nearest to `tau` samples, by Newton's method on Σ w·Re(S·exp(jωτ)) of the spectra: no
   * interpolation, so no bias of one. Real-time safe: yes.
   */
  refine(tau: number, sign: number): number {
    const power = -this.beta / 2;
    const step = (2 * Math.PI) / this.size;
    let t = tau;
    for (let n = 0; n < NEWTON_STEPS; n++) {
      let first = 0;
      let second = 0;
      for (let k = this.lowBin; k <= this.highBin; k++) {
        const ar = this.aRe[k] as number;
        const ai = this.aIm[k] as number;
        const br = this.bRe[k] as number;
        const bi = this.bIm[k] as number;
        const re = ar * br + ai * bi;
        const im = ar * bi - ai * br;
        const w = this.beta === 0 ? 1 : (re * re + im * im + 1e-60) ** power;
        const omega = step * k;
        const c = Math.cos(omega * t);
        const s = Math.sin(omega * t);
        first -= w * omega * (re * s + im * c);
        second -= w * omega * omega * (re * c - im * s);
      }
      if (!(sign * second < 0)) break;
      t -= Math.max(-0.5, Math.min(0.5, first / second));
    }
    return t;
  }

  /** The curve's value at `tau` samples, −1…+1, from the spectra. Real-time safe: yes. */
  heightAt(tau: number): number {
    const power = -this.beta / 2;
    const step = (2 * Math.PI) / this.size;
    let sum = 0;
    let norm = 1e-60;
    for (let k = this.lowBin; k <= this.highBin; k++) {
      const re = (this.aRe[k] as number) * (this.bRe[k] as number) + (this.aIm[k] as number) * (this.bIm[k] as number);
      const im = (this.aRe[k] as number) * (this.bIm[k] as number) - (this.aIm[k] as number) * (this.bRe[k] as number);
      const mag2 = re * re + im * im;
      if (!(mag2 > 1e-60)) continue;
      const w = mag2 ** power;
      sum += w * (re * Math.cos(step * k * tau) - im * Math.sin(step * k * tau));
      norm += w * Math.sqrt(mag2);
    }
    return sum / norm;
  }
}

/**
 * Take Z = FFT(a + i·b) apart into the spectra of the real a and b, bins 0…size/2.
 * @param z interleaved re, im; length 2·size. Real-time safe: yes.
 */
export function splitSpectra(
  z: Float64Array,
  size: number,
  aRe: Float64Array,
  aIm: Float64Array,
  bRe: Float64Array,
  bIm: Float64Array,
): void {
  for (let k = 0; k <= size / 2; k++) {
    const j = k === 0 ? 0 : size - k;
    const zr = z[2 * k] as number;
    const zi = z[2 * k + 1] as number;
    const yr = z[2 * j] as number;
    const yi = z[2 * j + 1] as number;
    aRe[k] = 0.5 * (zr + yr);
    aIm[k] = 0.5 * (zi - yi);
    bRe[k] = 0.5 * (zi + yi);
    bIm[k] = -0.5 * (zr - yr);
  }
}

/**
 * Sub-sample offset of an extremum from three points, −0.5…+0.5 (parabola).
 * Biased by up to 0.025 sample for a half-band signal (check: tests/dsp); refine in the frequency domain where that counts.
 */
export function parabolicOffset(before: number, at: number, after: number): number {
  const d = before - 2 * at + after;
  if (d === 0) return 0;
  const x = (0.5 * (before - after)) / d;
  return Math.min(0.5, Math.max(-0.5, x));
}
