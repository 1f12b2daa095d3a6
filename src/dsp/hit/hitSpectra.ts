/**
 * Power and cross spectra of one hit, −5…+200 ms round its arrival, and of the noise before it: what A+B will be.
 * One transform each; results go into the HitStore's slot, and what the two have in common at each lag into `lags`.
 * S = conj(A)·B, so B late gives exp(−j2πfτ). Above 64 kHz or so the stretch is taken at a half or a quarter of the rate: no
 * sum is told above 20 kHz, and one transform has to fit into a step.
 */
import type FFT from 'fft.js';
import { BAND_COUNT, BANDS, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import { type BinBand, binBand } from '../signal/binBand';
import { Decimator } from '../signal/decimator';
import { splitSpectra } from '../signal/gcc';
import { OCTAVE_BANDS, octaveLowHz } from '../signal/octaves';
import type { Ring } from '../signal/ring';
import { transformOf } from '../signal/transforms';
import { fadeWindow } from '../signal/windows';
import { HIT, type SpectraTuning } from '../tuning/hitTuning';
import { type HitStore, STORED_HITS } from './hitStore';
import { SumLags } from './sumLags';

/** frames of a stretch that are worked out at a call, where the rate is lowered */
const PART = 1024;

/** Length of the analysed stretch, s: hits in it give (bandwidth × this) independent bins. */
export const spectraSeconds = (tuning: SpectraTuning): number => tuning.beforeSeconds + tuning.afterSeconds;

export class HitSpectra {
  readonly lookAheadFrames: number;
  /** frames of the stream to one of a stretch */
  readonly factor: number;
  readonly lags: SumLags;
  private readonly size: number;
  /** frames of a stretch before the arrival, in all, and of the noise */
  private readonly before: number;
  private readonly length: number;
  private readonly noiseLength: number;
  private readonly window: Float64Array;
  private readonly noiseWindow: Float64Array;
  /** power of a hit's window over that of the noise's */
  private readonly noiseScale: number;
  private readonly decimator: Decimator;
  private loaded = 0;
  private readonly fft: FFT;
  private readonly input: Float64Array;
  private readonly output: Float64Array;
  readonly aRe: Float64Array;
  readonly aIm: Float64Array;
  readonly bRe: Float64Array;
  readonly bIm: Float64Array;
  private readonly gridFrom = new Int32Array(SPECTRUM_POINTS);
  private readonly gridTo = new Int32Array(SPECTRUM_POINTS);
  /** BANDS, the octaves, the whole */
  private readonly ranges: BinBand[] = [];
  /** sums over bins from…to: power of A, of B, Re and Im of the cross-spectrum */
  private sa = 0;
  private sb = 0;
  private sr = 0;
  private si = 0;

  /** @param maxLagSamples largest |lag| that `lags` will be asked for, samples of the stream */
  constructor(sampleRate: number, tuning: SpectraTuning = HIT.spectra, maxLagSamples = 0) {
    this.factor = 2 ** Math.max(0, Math.floor(Math.log2(sampleRate / tuning.leastRateHz)));
    const rate = sampleRate / this.factor;
    this.decimator = new Decimator(this.factor);
    this.before = Math.round(tuning.beforeSeconds * rate);
    this.length = this.before + Math.round(tuning.afterSeconds * rate);
    this.noiseLength = Math.round(tuning.noiseSeconds * rate);
    this.lookAheadFrames = (this.length - this.before) * this.factor + this.decimator.reach;
    const maxLag = Math.ceil(maxLagSamples / this.factor);
    this.size = 2 ** Math.ceil(Math.log2(this.length + maxLag));
    const fades = {
      fadeIn: Math.round(tuning.fadeInSeconds * rate),
      fadeOut: Math.round(tuning.fadeOutSeconds * rate),
    };
    this.window = fadeWindow(this.length, fades);
    this.noiseWindow = fadeWindow(this.noiseLength, fades);
    const power = (w: Float64Array): number => w.reduce((sum, x) => sum + x * x, 0);
    this.noiseScale = power(this.window) / power(this.noiseWindow);
    this.fft = transformOf(this.size);
    this.input = new Float64Array(2 * this.size);
    this.output = new Float64Array(2 * this.size);
    const bins = this.size / 2 + 1;
    this.aRe = new Float64Array(bins);
    this.aIm = new Float64Array(bins);
    this.bRe = new Float64Array(bins);
    this.bIm = new Float64Array(bins);
    const df = rate / this.size;
    const seconds = spectraSeconds(tuning);
    const clampBin = (b: number): number => Math.max(1, Math.min(this.size / 2 - 1, b));
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      const f = spectrumHz(i);
      // a twelfth of an octave wide, but never narrower than the stretch resolves
      const half = Math.max(f * (2 ** (1 / 24) - 1), 0.5 / seconds);
      this.gridFrom[i] = clampBin(Math.ceil((f - half) / df));
      this.gridTo[i] = clampBin(Math.max(Math.ceil((f - half) / df), Math.floor((f + half) / df)));
    }
    const range = (lowHz: number, highHz: number): BinBand => binBand(lowHz, highHz, df, this.size / 2 - 1);
    const highest = 0.48 * rate;
    for (const { lowHz, highHz } of BANDS) this.ranges.push(range(lowHz, Math.min(highHz, highest)));
    for (let k = 0; k < OCTAVE_BANDS; k++)
      this.ranges.push(range(octaveLowHz(k), Math.min(2 * octaveLowHz(k), highest)));
    this.ranges.push(range(tuning.lowHz, Math.min(tuning.highHz, highest)));
    this.lags = new SumLags(df, this.size, maxLag, STORED_HITS);
    for (let i = 0; i < 3; i++) this.transform();
  }

  /**
   * Fill the frame that begins 5 ms before `anchor` (hit) or ends there (noise), a part at a call. Real-time safe: yes.
   * @returns whether it is full; else it wants to be called again with the same
   */
  load(a: Ring, b: Ring, anchor: number, noise: boolean): boolean {
    const length = noise ? this.noiseLength : this.length;
    const window = noise ? this.noiseWindow : this.window;
    const from = Math.round(anchor) - this.factor * (this.before + (noise ? this.noiseLength : 0));
    if (this.loaded === 0) this.input.fill(0);
    const to = this.factor === 1 ? length : Math.min(length, this.loaded + PART);
    for (let i = this.loaded; i < to; i++) {
      const w = window[i] as number;
      this.input[2 * i] = w * this.decimator.at(a, from + i * this.factor);
      this.input[2 * i + 1] = w * this.decimator.at(b, from + i * this.factor);
    }
    this.loaded = to === length ? 0 : to;
    return to === length;
  }

  /** Begin the next frame anew. Real-time safe: yes. */
  clear(): void {
    this.loaded = 0;
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
    for (let k = from; k <= to; k++) this.add(k, 1);
  }

  private sumRange(i: number): void {
    const range = this.ranges[i] as BinBand;
    this.sum(range.from + 1, range.to - 1);
    this.add(range.from, range.first);
    if (range.to > range.from) this.add(range.to, range.last);
  }

  private add(k: number, share: number): void {
    const ar = this.aRe[k] as number;
    const ai = this.aIm[k] as number;
    const br = this.bRe[k] as number;
    const bi = this.bIm[k] as number;
    this.sa += share * (ar * ar + ai * ai);
    this.sb += share * (br * br + bi * bi);
    this.sr += share * (ar * br + ai * bi);
    this.si += share * (ar * bi - ai * br);
  }

  /** Write the hit's spectra into slot `s`. Real-time safe: yes. */
  storeHit(store: HitStore, s: number): void {
    for (let b = 0; b < BAND_COUNT; b++) {
      this.sumRange(b);
      const at = s * BAND_COUNT + b;
      store.bandA[at] = this.sa;
      store.bandB[at] = this.sb;
      store.bandProduct[at] = this.sr;
    }
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      this.sumRange(BAND_COUNT + k);
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
    this.sumRange(BAND_COUNT + OCTAVE_BANDS);
    store.energyA[s] = this.sa;
    store.energyB[s] = this.sb;
    store.product[s] = this.sr;
  }

  /** What the two have in common at each lag, two bands at a time; `round` 0…lags.works−1, after storeHit. Real-time safe: yes. */
  storeLags(round: number, s: number): void {
    this.lags.work(round, this, s);
  }

  /** Write the noise's octave powers, as of a stretch as long as a hit's, into slot `s`. Real-time safe: yes. */
  storeNoise(store: HitStore, s: number): void {
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      this.sumRange(BAND_COUNT + k);
      store.noiseA[s * OCTAVE_BANDS + k] = this.sa * this.noiseScale;
      store.noiseB[s * OCTAVE_BANDS + k] = this.sb * this.noiseScale;
    }
  }
}
