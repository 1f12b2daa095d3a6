/**
 * Power and cross spectra of one hit, −5…+100 ms round its arrival, and of the noise before it: what A+B will be.
 * One transform each; results go into the HitStore's slot. S = conj(A)·B, so B late gives exp(−j2πfτ).
 */
import type FFT from 'fft.js';
import { BAND_COUNT, BANDS, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import { splitSpectra } from '../signal/gcc';
import { OCTAVE_BANDS, octaveLowHz } from '../signal/octaves';
import type { Ring } from '../signal/ring';
import { transformOf } from '../signal/transforms';
import { fadeWindow } from '../signal/windows';
import { HIT, type SpectraTuning } from '../tuning/hitTuning';
import type { HitStore } from './hitStore';

/** Length of the analysed stretch, s: hits in it give (bandwidth × this) independent bins. */
export const spectraSeconds = (tuning: SpectraTuning): number => tuning.beforeSeconds + tuning.afterSeconds;

export class HitSpectra {
  readonly lookAheadFrames: number;
  private readonly size: number;
  private readonly before: number;
  private readonly length: number;
  private readonly window: Float64Array;
  private readonly fft: FFT;
  private readonly input: Float64Array;
  private readonly output: Float64Array;
  private readonly aRe: Float64Array;
  private readonly aIm: Float64Array;
  private readonly bRe: Float64Array;
  private readonly bIm: Float64Array;
  private readonly gridFrom = new Int32Array(SPECTRUM_POINTS);
  private readonly gridTo = new Int32Array(SPECTRUM_POINTS);
  private readonly bandFrom = new Int32Array(BAND_COUNT + OCTAVE_BANDS + 1);
  private readonly bandTo = new Int32Array(BAND_COUNT + OCTAVE_BANDS + 1);
  /** sums over bins from…to: power of A, of B, Re and Im of the cross-spectrum */
  private sa = 0;
  private sb = 0;
  private sr = 0;
  private si = 0;

  constructor(sampleRate: number, tuning: SpectraTuning = HIT.spectra) {
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.length = this.before + Math.round(tuning.afterSeconds * sampleRate);
    this.lookAheadFrames = this.length - this.before;
    this.size = 2 ** Math.ceil(Math.log2(this.length));
    this.window = fadeWindow(this.length, {
      fadeIn: Math.round(tuning.fadeInSeconds * sampleRate),
      fadeOut: Math.round(tuning.fadeOutSeconds * sampleRate),
    });
    this.fft = transformOf(this.size);
    this.input = new Float64Array(2 * this.size);
    this.output = new Float64Array(2 * this.size);
    const bins = this.size / 2 + 1;
    this.aRe = new Float64Array(bins);
    this.aIm = new Float64Array(bins);
    this.bRe = new Float64Array(bins);
    this.bIm = new Float64Array(bins);
    const df = sampleRate / this.size;
    const seconds = spectraSeconds(tuning);
    const clampBin = (b: number): number => Math.max(1, Math.min(this.size / 2 - 1, b));
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      const f = spectrumHz(i);
      // a twelfth of an octave wide, but never narrower than the stretch resolves
      const half = Math.max(f * (2 ** (1 / 24) - 1), 0.5 / seconds);
      this.gridFrom[i] = clampBin(Math.ceil((f - half) / df));
      this.gridTo[i] = clampBin(Math.max(Math.ceil((f - half) / df), Math.floor((f + half) / df)));
    }
    const setBand = (i: number, lowHz: number, highHz: number): void => {
      this.bandFrom[i] = clampBin(Math.ceil(lowHz / df));
      this.bandTo[i] = clampBin(Math.floor(Math.min(highHz, 0.48 * sampleRate) / df));
    };
    for (const [i, band] of BANDS.entries()) setBand(i, band.lowHz, band.highHz);
    for (let k = 0; k < OCTAVE_BANDS; k++) setBand(BAND_COUNT + k, octaveLowHz(k), 2 * octaveLowHz(k));
    setBand(BAND_COUNT + OCTAVE_BANDS, tuning.lowHz, tuning.highHz);
    for (let i = 0; i < 3; i++) this.transform();
  }

  /** Fill the frame that begins 5 ms before `anchor` (hit) or ends there (noise). Real-time safe: yes. */
  load(a: Ring, b: Ring, anchor: number, noise: boolean): void {
    const from = Math.round(anchor) - this.before - (noise ? this.length : 0);
    this.input.fill(0);
    for (let i = 0; i < this.length; i++) {
      const w = this.window[i] as number;
      this.input[2 * i] = w * a.at(from + i);
      this.input[2 * i + 1] = w * b.at(from + i);
    }
  }

  /** One transform. Real-time safe: yes. */
  transform(): void {
    this.fft.transform(this.output, this.input);
    splitSpectra(this.output, this.size, this.aRe, this.aIm, this.bRe, this.bIm);
  }

  private sum(from: number, to: number): void {
    this.sa = 0;
    this.sb = 0;
    this.sr = 0;
    this.si = 0;
    for (let k = from; k <= to; k++) {
      const ar = this.aRe[k] as number;
      const ai = this.aIm[k] as number;
      const br = this.bRe[k] as number;
      const bi = this.bIm[k] as number;
      this.sa += ar * ar + ai * ai;
      this.sb += br * br + bi * bi;
      this.sr += ar * br + ai * bi;
      this.si += ar * bi - ai * br;
    }
  }

  /** Write the hit's spectra into slot `s`. Real-time safe: yes. */
  storeHit(store: HitStore, s: number): void {
    for (let b = 0; b < BAND_COUNT; b++) {
      this.sum(this.bandFrom[b] as number, this.bandTo[b] as number);
      const at = s * BAND_COUNT + b;
      store.bandA[at] = this.sa;
      store.bandB[at] = this.sb;
      store.bandProduct[at] = this.sr;
    }
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      this.sum(this.bandFrom[BAND_COUNT + k] as number, this.bandTo[BAND_COUNT + k] as number);
      const at = s * OCTAVE_BANDS + k;
      store.octaveA[at] = this.sa;
      store.octaveB[at] = this.sb;
      store.octaveProduct[at] = this.sr;
    }
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      this.sum(this.gridFrom[i] as number, this.gridTo[i] as number);
      const at = s * SPECTRUM_POINTS + i;
      store.gridA[at] = this.sa;
      store.gridB[at] = this.sb;
      store.gridRe[at] = this.sr;
      store.gridIm[at] = this.si;
    }
    const all = BAND_COUNT + OCTAVE_BANDS;
    this.sum(this.bandFrom[all] as number, this.bandTo[all] as number);
    store.energyA[s] = this.sa;
    store.energyB[s] = this.sb;
    store.product[s] = this.sr;
  }

  /** Write the noise's octave powers into slot `s`. Real-time safe: yes. */
  storeNoise(store: HitStore, s: number): void {
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      this.sum(this.bandFrom[BAND_COUNT + k] as number, this.bandTo[BAND_COUNT + k] as number);
      store.noiseA[s * OCTAVE_BANDS + k] = this.sa;
      store.noiseB[s * OCTAVE_BANDS + k] = this.sb;
    }
  }
}
