/**
 * Power and cross spectra of one hit, −5 ms to 0.2 s round its arrival, and of the noise before it: what A+B will be.
 * In small pieces, the noise first: it is there while the hit's own stretch is still coming in. Results go into the HitStore's slot,
 * and what the two have in common at each lag into `lags`. S = conj(A)·B, so B late gives exp(−j2πfτ).
 */
import { BAND_COUNT, BANDS, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import type { Rings } from '../input/inputs';
import { type BinBand, binBand, binShare } from '../signal/binBand';
import { OCTAVE_BANDS, octaveLowHz } from '../signal/octaves';
import { HIT, type SpectraTuning } from '../tuning/hitTuning';
import { type HitStore, STORED_HITS } from './hitStore';
import { type Piece, Stretch } from './stretch';
import { SumLags } from './sumLags';

/** Length of the analysed stretch, s: hits in it give (bandwidth × this) independent bins. */
export const spectraSeconds = (tuning: SpectraTuning): number => tuning.beforeSeconds + tuning.afterSeconds;

/** what is to be done next with a hit */
const NOISE = 0;
const STORE_NOISE = 1;
const STRETCH = 2;
const STORE_BANDS = 3;
const STORE_GRID = 4;
const LAGS = 5;

/** places in the sums over a range of bins: power of A, of B, Re and Im of the cross-spectrum */
const POWER_A = 0;
const POWER_B = 1;
const CROSS_RE = 2;
const CROSS_IM = 3;

export class HitSpectra {
  readonly lags: SumLags;
  private readonly stretch: Stretch;
  private stage = NOISE;
  private readonly gridFrom = new Int32Array(SPECTRUM_POINTS);
  private readonly gridTo = new Int32Array(SPECTRUM_POINTS);
  /** BANDS, the octaves, the whole */
  private readonly ranges: BinBand[] = [];
  private readonly sums = new Float64Array(4);

  /** @param maxLagSamples largest |lag| that `lags` will be asked for, samples of the stream */
  constructor(sampleRate: number, tuning: SpectraTuning = HIT.spectra, maxLagSamples = 0) {
    this.stretch = new Stretch(sampleRate, tuning, maxLagSamples);
    const { rate, size, factor, transform } = this.stretch;
    const df = rate / size;
    const seconds = spectraSeconds(tuning);
    const clampBin = (b: number): number => Math.max(1, Math.min(size / 2 - 1, b));
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      const f = spectrumHz(i);
      // a twelfth of an octave wide, but never narrower than the stretch resolves
      const half = Math.max(f * (2 ** (1 / 24) - 1), 0.5 / seconds);
      this.gridFrom[i] = clampBin(Math.ceil((f - half) / df));
      this.gridTo[i] = clampBin(Math.max(Math.ceil((f - half) / df), Math.floor((f + half) / df)));
    }
    const range = (lowHz: number, highHz: number): BinBand => binBand(lowHz, highHz, df, size / 2 - 1);
    const highest = 0.48 * rate;
    for (const { lowHz, highHz } of BANDS) this.ranges.push(range(lowHz, Math.min(highHz, highest)));
    for (let k = 0; k < OCTAVE_BANDS; k++)
      this.ranges.push(range(octaveLowHz(k), Math.min(2 * octaveLowHz(k), highest)));
    this.ranges.push(range(tuning.lowHz, Math.min(tuning.highHz, highest)));
    this.lags = new SumLags(df, transform, Math.ceil(maxLagSamples / factor), STORED_HITS);
  }

  /** frames of the stream after the arrival that are looked at */
  get lookAheadFrames(): number {
    return this.stretch.lookAheadFrames;
  }

  /** frames of the stream to one of a lag */
  get factor(): number {
    return this.stretch.factor;
  }

  /**
   * One piece of a hit: the same one until it is done. Real-time safe: yes.
   * @param frames those that have come in; @param anchor the hit's arrival, frame; @param s its slot
   */
  work(
    { rawA, rawB }: Pick<Rings, 'rawA' | 'rawB'>,
    frames: number,
    anchor: number,
    store: HitStore,
    s: number,
  ): Piece {
    const { stage } = this;
    if (stage === NOISE || stage === STRETCH) {
      const done = this.stretch.work(rawA, rawB, frames, anchor, stage === NOISE);
      if (done === 'done') this.stage++;
      return done === 'waiting' ? 'waiting' : 'part';
    }
    if (stage === LAGS) {
      if (!this.lags.work(this.stretch.bins, s)) return 'part';
      this.stage = NOISE;
      return 'done';
    }
    if (stage === STORE_NOISE) this.storeNoise(store, s);
    else if (stage === STORE_BANDS) this.storeBands(store, s);
    else if (stage === STORE_GRID) this.storeGrid(store, s);
    this.stage++;
    return 'part';
  }

  /** Let the hit that is under way go. Real-time safe: yes. */
  clear(): void {
    this.stage = NOISE;
    this.stretch.clear();
    this.lags.clear();
  }

  private sum(from: number, to: number): void {
    const { aRe, aIm, bRe, bIm } = this.stretch.bins;
    let sa = 0;
    let sb = 0;
    let sr = 0;
    let si = 0;
    for (let k = from; k <= to; k++) {
      const ar = aRe[k] as number;
      const ai = aIm[k] as number;
      const br = bRe[k] as number;
      const bi = bIm[k] as number;
      sa += ar * ar + ai * ai;
      sb += br * br + bi * bi;
      sr += ar * br + ai * bi;
      si += ar * bi - ai * br;
    }
    this.sums[POWER_A] = sa;
    this.sums[POWER_B] = sb;
    this.sums[CROSS_RE] = sr;
    this.sums[CROSS_IM] = si;
  }

  private sumRange(i: number): void {
    const range = this.ranges[i] as BinBand;
    this.sum(range.from + 1, range.to - 1);
    this.add(range, range.from);
    if (range.to > range.from) this.add(range, range.to);
  }

  /** The share of an edge's bin. */
  private add(range: BinBand, k: number): void {
    const { sums } = this;
    const share = binShare(range, k);
    const { aRe, aIm, bRe, bIm } = this.stretch.bins;
    const ar = aRe[k] as number;
    const ai = aIm[k] as number;
    const br = bRe[k] as number;
    const bi = bIm[k] as number;
    sums[POWER_A] = (sums[POWER_A] as number) + share * (ar * ar + ai * ai);
    sums[POWER_B] = (sums[POWER_B] as number) + share * (br * br + bi * bi);
    sums[CROSS_RE] = (sums[CROSS_RE] as number) + share * (ar * br + ai * bi);
    sums[CROSS_IM] = (sums[CROSS_IM] as number) + share * (ar * bi - ai * br);
  }

  private storeBands(store: HitStore, s: number): void {
    const { sums } = this;
    for (let b = 0; b < BAND_COUNT; b++) {
      this.sumRange(b);
      const at = s * BAND_COUNT + b;
      store.bandA[at] = sums[POWER_A] as number;
      store.bandB[at] = sums[POWER_B] as number;
      store.bandProduct[at] = sums[CROSS_RE] as number;
    }
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      this.sumRange(BAND_COUNT + k);
      const at = s * OCTAVE_BANDS + k;
      store.octaveA[at] = sums[POWER_A] as number;
      store.octaveB[at] = sums[POWER_B] as number;
      store.octaveProduct[at] = sums[CROSS_RE] as number;
    }
    this.sumRange(BAND_COUNT + OCTAVE_BANDS);
    store.energyA[s] = sums[POWER_A] as number;
    store.energyB[s] = sums[POWER_B] as number;
    store.product[s] = sums[CROSS_RE] as number;
  }

  private storeGrid(store: HitStore, s: number): void {
    const { sums } = this;
    for (let i = 0; i < SPECTRUM_POINTS; i++) {
      this.sum(this.gridFrom[i] as number, this.gridTo[i] as number);
      const at = s * SPECTRUM_POINTS + i;
      store.gridA[at] = sums[POWER_A] as number;
      store.gridB[at] = sums[POWER_B] as number;
      store.gridRe[at] = sums[CROSS_RE] as number;
      store.gridIm[at] = sums[CROSS_IM] as number;
    }
  }

  /** The noise's octave powers, as of a stretch as long as a hit's. */
  private storeNoise(store: HitStore, s: number): void {
    const { sums } = this;
    const { noiseScale } = this.stretch;
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      this.sumRange(BAND_COUNT + k);
      store.noiseA[s * OCTAVE_BANDS + k] = (sums[POWER_A] as number) * noiseScale;
      store.noiseB[s * OCTAVE_BANDS + k] = (sums[POWER_B] as number) * noiseScale;
    }
  }
}
