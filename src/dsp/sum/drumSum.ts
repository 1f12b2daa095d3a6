/**
 * What the sum says over the hits of one drum: complex coherency γ on the grid and per band, and which polarity of B is fuller in the
 * drum's low octave; and what the two have in common once one of them is delayed. The hits add up as they were recorded, so that a
 * gain told is that of the recordings; for the coherence, which is a matter of evidence, each hit counts alike. A and B are brought
 * to equal level: A±B re the power sum = 10·log10(1 ± Re γ).
 */

import { BAND_COUNT, BANDS, LOW_OCTAVES_HZ, SPECTRUM_POINTS, SUM_BAND, spectrumHz } from '../../reading/bands';
import { BAND_LENGTH, SLOT } from '../../reading/frame';
import { POOL_HITS } from '../../reading/limits';
import type { Pool } from '../delay/pool';
import { spectraSeconds } from '../hit/hitSpectra';
import type { HitStore } from '../hit/hitStore';
import { fixedBand, lowOctave, type SumLags, WHOLE_BAND } from '../hit/sumLags';
import { OCTAVE_BANDS, octaveLowHz } from '../signal/octaves';
import { TUNING, type Tuning } from '../tuning';
import type { SumTuning } from '../tuning/sumTuning';
import { biasLimit, unbiased } from './coherenceBias';
import { NearSum } from './nearSum';

/** the octave of 31.5 Hz lies below any drum of a kit */
const LOWEST_BAND = 1;
/** the drum's own low band is one of the octaves up to mid 500 Hz */
const LOW_BANDS = 5;

/** What the drum's hits say of its delay, as far as its sum asks: which hits are behind it, and where it lies, samples. */
export interface Answered {
  readonly inAnswer: Uint8Array;
  readonly delay: number;
  readonly sign: number;
}

const db = (power: number): number => 10 * Math.log10(Math.max(power, 1e-12));

export class DrumSum {
  hits = 0;
  correlation = Number.NaN;
  levelDifferenceDb = Number.NaN;
  sameSignal = false;
  /** per band as in a frame: SLOT.band */
  readonly bands = new Float64Array(BAND_COUNT * BAND_LENGTH).fill(Number.NaN);
  readonly re = new Float64Array(SPECTRUM_POINTS).fill(Number.NaN);
  readonly im = new Float64Array(SPECTRUM_POINTS).fill(Number.NaN);
  readonly coherence = new Float64Array(SPECTRUM_POINTS).fill(Number.NaN);
  /** 0 as-is, 1 inverted, 2 either, NaN none; bands as octave low edge */
  fuller = Number.NaN;
  fullerDb = Number.NaN;
  fullerLowHz = Number.NaN;
  fullerHighHz = Number.NaN;
  /** Re γ per octave of LOW_OCTAVES_HZ; NaN where the hits don't carry it */
  readonly lowOctaves = new Float64Array(LOW_OCTAVES_HZ.length).fill(Number.NaN);
  /** what the two have in common once one of them is delayed */
  readonly near = new NearSum();

  private readonly use = new Int32Array(POOL_HITS);
  /** octave of the drum's low octave; −1: none that the hits carry */
  private ownOctave = -1;
  private readonly raw = new Float64Array(SPECTRUM_POINTS);
  /** √(power of A × power of B) of a grid point's stretch */
  private readonly energy = new Float64Array(SPECTRUM_POINTS);
  private readonly octaveLevelA = new Float64Array(OCTAVE_BANDS);
  private readonly octaveLevelB = new Float64Array(OCTAVE_BANDS);
  private readonly tuning: SumTuning;
  /** length of a hit's stretch, s */
  private readonly seconds: number;

  constructor({ sum, hit }: Pick<Tuning, 'sum' | 'hit'> = TUNING) {
    this.tuning = sum;
    this.seconds = spectraSeconds(hit.spectra);
  }

  /**
   * Real-time safe: yes.
   * @param answered the hits behind an answer alone are added up; null, or none behind it: all of the drum
   * @param factor samples of the stream to one of `lags`
   */
  evaluate(
    store: HitStore,
    pool: Pool,
    answered: Answered | null = null,
    lags: SumLags | null = null,
    factor = 1,
  ): void {
    this.clear();
    const isAnswer = answered !== null && answered.sign !== 0;
    for (let i = 0; i < pool.drumHits; i++) {
      if (isAnswer && !answered.inAnswer[i]) continue;
      const s = pool.drumSlots[i] as number;
      if (!store.hasSum[s]) continue;
      if (!((store.energyA[s] as number) > 0 && (store.energyB[s] as number) > 0)) continue;
      this.use[this.hits++] = s;
    }
    if (this.hits === 0) return;
    this.broadband(store);
    // one signal twice has no sum worth the name
    if (this.hits < this.tuning.hitsNeeded || this.sameSignal) return;
    this.grid(store);
    for (let b = 0; b < BAND_COUNT; b++) this.band(store, b);
    this.ownLowBand(store);
    if (lags === null) return;
    this.near.evaluate(lags, this.use, this.hits, this.carried, isAnswer ? answered.delay : Number.NaN, factor);
  }

  /** Place of a near band in `lags`; −1: the hits don't carry it. Real-time safe: yes. */
  readonly carried = (n: number): number => {
    if (n === 0) return this.ownOctave < 0 ? -1 : lowOctave(this.ownOctave);
    if (n === 1) return this.wholeCoherence() >= this.tuning.leastWhole ? WHOLE_BAND : -1;
    const b = n - 2;
    return Number.isNaN(this.bands[b * BAND_LENGTH + SLOT.band.coherence] as number) ? -1 : fixedBand(b);
  };

  private broadband(store: HitStore): void {
    let r = 0;
    let ratio = 0;
    for (let i = 0; i < this.hits; i++) {
      const s = this.use[i] as number;
      r += (store.product[s] as number) / Math.sqrt((store.energyA[s] as number) * (store.energyB[s] as number));
      ratio += db((store.energyB[s] as number) / (store.energyA[s] as number));
    }
    this.correlation = Math.max(-1, Math.min(1, r / this.hits));
    this.levelDifferenceDb = ratio / this.hits;
    const { sameSignal, sameSignalHits, sameAttack } = this.tuning;
    this.sameSignal =
      this.hits >= sameSignalHits && Math.abs(r / this.hits) > sameSignal && this.attackAlike(store) > sameAttack;
  }

  /** |zero-lag correlation| in the highest fixed band; 1 where it holds nothing. */
  private attackAlike(store: HitStore): number {
    let r = 0;
    for (let i = 0; i < this.hits; i++) {
      const at = (this.use[i] as number) * BAND_COUNT + BAND_COUNT - 1;
      const norm = Math.sqrt((store.bandA[at] as number) * (store.bandB[at] as number));
      r += norm > 0 ? (store.bandProduct[at] as number) / norm : 1;
    }
    return Math.abs(r / this.hits);
  }

  /** γ per grid point; the coherence of hits weighted to equal energy, without its bias. */
  private grid(store: HitStore): void {
    const { seconds } = this;
    const { independent, chance } = this.tuning;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      let re = 0;
      let im = 0;
      let aa = 0;
      let bb = 0;
      let allRe = 0;
      let allIm = 0;
      let allA = 0;
      let allB = 0;
      for (let i = 0; i < this.hits; i++) {
        const s = this.use[i] as number;
        const at = s * SPECTRUM_POINTS + p;
        const ea = store.energyA[s] as number;
        const eb = store.energyB[s] as number;
        const w = 1 / Math.sqrt(ea * eb);
        re += (store.gridRe[at] as number) * w;
        im += (store.gridIm[at] as number) * w;
        aa += (store.gridA[at] as number) / ea;
        bb += (store.gridB[at] as number) / eb;
        allRe += store.gridRe[at] as number;
        allIm += store.gridIm[at] as number;
        allA += store.gridA[at] as number;
        allB += store.gridB[at] as number;
      }
      this.energy[p] = Math.sqrt(allA * allB);
      const f = spectrumHz(p);
      const width = Math.max(f * (2 ** (1 / 24) - 2 ** (-1 / 24)), 1 / seconds);
      const segments = independent * this.hits * Math.max(1, width * seconds);
      const norm = aa * bb;
      if (!(norm > 1e-24)) {
        this.raw[p] = Number.NaN;
        continue;
      }
      const c = (re * re + im * im) / norm;
      this.raw[p] = c;
      this.coherence[p] = unbiased(c, segments);
      if (c > biasLimit(segments, 1, chance)) {
        const g = 1 / Math.sqrt(allA * allB);
        this.re[p] = allRe * g;
        this.im[p] = allIm * g;
      }
    }
  }

  /** Mean coherence of the grid points between two frequencies, bias removed; NaN if not clearly above it. */
  private bandCoherence(lowHz: number, highHz: number): number {
    let sum = 0;
    let weight = 0;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      const f = spectrumHz(p);
      if (f < lowHz || f > highHz || Number.isNaN(this.raw[p] as number)) continue;
      // grid points stand for stretches that grow with frequency
      sum += (this.coherence[p] as number) * f;
      weight += f;
    }
    if (weight === 0) return Number.NaN;
    const c = sum / weight;
    const bins = Math.max(1, (highHz - lowHz) * this.seconds);
    const deviation = Math.sqrt((this.hits - 1) / (this.hits * this.hits * (this.hits + 1))) / Math.sqrt(bins);
    const { leastCoherence, deviations } = this.tuning;
    return c > Math.max(leastCoherence, (deviations * deviation * this.hits) / (this.hits - 1)) ? c : Number.NaN;
  }

  /** Coherence over SUM_BAND, bias removed, each point by the energy that the two have there; 0 without any. */
  private wholeCoherence(): number {
    let sum = 0;
    let weight = 0;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      const f = spectrumHz(p);
      const c = this.coherence[p] as number;
      if (f < SUM_BAND.lowHz || f > SUM_BAND.highHz || Number.isNaN(c)) continue;
      // a point's power is that of its stretch, and stretches lie as far apart as they are wide
      const w = this.energy[p] as number;
      sum += c * w;
      weight += w;
    }
    return weight > 0 ? sum / weight : 0;
  }

  private band(store: HitStore, b: number): void {
    let re = 0;
    let aa = 0;
    let bb = 0;
    let ratio = 0;
    for (let i = 0; i < this.hits; i++) {
      const s = this.use[i] as number;
      const at = s * BAND_COUNT + b;
      re += store.bandProduct[at] as number;
      aa += store.bandA[at] as number;
      bb += store.bandB[at] as number;
      ratio += db((store.bandB[at] as number) / Math.max(store.bandA[at] as number, 1e-30));
    }
    const band = BANDS[b];
    const c = band === undefined ? Number.NaN : this.bandCoherence(band.lowHz, band.highHz);
    if (Number.isNaN(c) || !(aa * bb > 0)) return;
    const g = Math.max(-1, Math.min(1, re / Math.sqrt(aa * bb)));
    const d = ratio / this.hits;
    const r = 10 ** (d / 20);
    const at = b * BAND_LENGTH;
    const { band: slot } = SLOT;
    this.bands[at + slot.correlation] = g;
    this.bands[at + slot.coherence] = c;
    this.bands[at + slot.sumDb] = db(1 + g);
    this.bands[at + slot.sumInvertedDb] = db(1 - g);
    this.bands[at + slot.sumAsRecordedDb] = db(1 + (2 * g * r) / (1 + r * r));
    this.bands[at + slot.levelDifferenceDb] = d;
  }

  /** The lowest octave that carries the drum in both microphones, and which polarity is fuller there. */
  private ownLowBand(store: HitStore): void {
    const { withinStrongestDb } = this.tuning;
    let strongestA = Number.NEGATIVE_INFINITY;
    let strongestB = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      let a = 0;
      let b = 0;
      for (let i = 0; i < this.hits; i++) {
        const s = this.use[i] as number;
        a += (store.octaveA[s * OCTAVE_BANDS + k] as number) / (store.energyA[s] as number);
        b += (store.octaveB[s * OCTAVE_BANDS + k] as number) / (store.energyB[s] as number);
      }
      this.octaveLevelA[k] = db(a / this.hits);
      this.octaveLevelB[k] = db(b / this.hits);
      strongestA = Math.max(strongestA, this.octaveLevelA[k] as number);
      strongestB = Math.max(strongestB, this.octaveLevelB[k] as number);
    }
    let found = false;
    for (let k = LOWEST_BAND; k < LOW_BANDS; k++) {
      if (!this.overNoise(store, k)) continue;
      const low = octaveLowHz(k);
      const carried = !Number.isNaN(this.bandCoherence(low, 2 * low));
      if (carried) this.lowOctaves[k - LOWEST_BAND] = this.octaveGamma(store, k);
      if (found || (this.octaveLevelA[k] as number) < strongestA - withinStrongestDb) continue;
      if ((this.octaveLevelB[k] as number) < strongestB - withinStrongestDb) continue;
      found = true;
      if (!carried) continue;
      this.ownOctave = k - LOWEST_BAND;
      this.setFuller(this.lowOctaves[k - LOWEST_BAND] as number, low);
    }
  }

  /** The hits stand over the quietest stretch between them, in both microphones. */
  private overNoise(store: HitStore, k: number): boolean {
    let a = 0;
    let b = 0;
    let na = Number.POSITIVE_INFINITY;
    let nb = Number.POSITIVE_INFINITY;
    for (let i = 0; i < this.hits; i++) {
      const at = (this.use[i] as number) * OCTAVE_BANDS + k;
      a += store.octaveA[at] as number;
      b += store.octaveB[at] as number;
      na = Math.min(na, store.noiseA[at] as number);
      nb = Math.min(nb, store.noiseB[at] as number);
    }
    const over = 10 ** (this.tuning.overNoiseDb / 10);
    return a / this.hits > over * na && b / this.hits > over * nb;
  }

  /** Re γ of octave k, A and B at equal level. */
  private octaveGamma(store: HitStore, k: number): number {
    let re = 0;
    let aa = 0;
    let bb = 0;
    for (let i = 0; i < this.hits; i++) {
      const s = this.use[i] as number;
      const at = s * OCTAVE_BANDS + k;
      re += store.octaveProduct[at] as number;
      aa += store.octaveA[at] as number;
      bb += store.octaveB[at] as number;
    }
    return Math.max(-0.9999, Math.min(0.9999, re / Math.sqrt(aa * bb)));
  }

  private setFuller(g: number, low: number): void {
    const difference = db(1 + g) - db(1 - g);
    this.fullerDb = Math.abs(difference);
    this.fuller = this.fullerDb < this.tuning.eitherDb ? 2 : difference > 0 ? 0 : 1;
    this.fullerLowHz = low;
    this.fullerHighHz = 2 * low;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.hits = 0;
    this.correlation = Number.NaN;
    this.levelDifferenceDb = Number.NaN;
    this.sameSignal = false;
    this.bands.fill(Number.NaN);
    this.re.fill(Number.NaN);
    this.im.fill(Number.NaN);
    this.coherence.fill(Number.NaN);
    this.fuller = Number.NaN;
    this.fullerDb = Number.NaN;
    this.fullerLowHz = Number.NaN;
    this.fullerHighHz = Number.NaN;
    this.lowOctaves.fill(Number.NaN);
    this.ownOctave = -1;
    this.near.clear();
  }
}
