/**
 * What the sum says over the hits of one drum: complex coherency γ on the grid and per band, and which polarity of B is fuller in the
 * drum's low octave; and what the two have in common once one of them is delayed. The hits add up as they were recorded, so that a
 * gain told is that of the recordings; for the coherence, which is a matter of evidence, each hit counts alike. A and B are brought
 * to equal level: A±B re the power sum = 10·log10(1 ± Re γ).
 */

import { BAND_COUNT, BANDS } from '../../reading/bands';
import { BAND_LENGTH, SLOT } from '../../reading/frame';
import { POOL_HITS } from '../../reading/limits';
import type { Pool } from '../delay/pool';
import { spectraSeconds } from '../hit/hitSpectra';
import type { HitStore } from '../hit/hitStore';
import { fixedBand, lowOctave, type SumLags, WHOLE_BAND } from '../hit/sumLags';
import { TUNING, type Tuning } from '../tuning';
import type { SumTuning } from '../tuning/sumTuning';
import { db } from './decibels';
import { GridCoherency } from './gridCoherency';
import { LowOctave } from './lowOctave';
import { NearSum } from './nearSum';

/** What the drum's hits say of its delay, as far as its sum asks: which hits are behind it, and where it lies, samples. */
export interface Answered {
  readonly inAnswer: Uint8Array;
  readonly delay: number;
  readonly sign: number;
}

export class DrumSum {
  hits = 0;
  correlation = Number.NaN;
  levelDifferenceDb = Number.NaN;
  sameSignal = false;
  /** per band as in a frame: SLOT.band */
  readonly bands = new Float64Array(BAND_COUNT * BAND_LENGTH).fill(Number.NaN);
  /** γ on the grid, NaN where the hits don't carry it, and the coherence */
  readonly re: Float64Array;
  readonly im: Float64Array;
  readonly coherence: Float64Array;
  /** Re γ per octave of LOW_OCTAVES_HZ; NaN where the hits don't carry it */
  readonly lowOctaves: Float64Array;
  /** what the two have in common once one of them is delayed */
  readonly near = new NearSum();

  private readonly use = new Int32Array(POOL_HITS);
  private readonly grid: GridCoherency;
  private readonly low: LowOctave;
  private readonly tuning: SumTuning;

  constructor({ sum, hit }: Pick<Tuning, 'sum' | 'hit'> = TUNING) {
    this.tuning = sum;
    this.grid = new GridCoherency(sum, spectraSeconds(hit.spectra));
    this.low = new LowOctave(sum);
    const { re, im, coherence } = this.grid;
    this.re = re;
    this.im = im;
    this.coherence = coherence;
    this.lowOctaves = this.low.octaves;
  }

  /** In the drum's low octave: 0 as-is, 1 inverted, 2 either, NaN none; by how much; the octave's edges. */
  get fuller(): number {
    return this.low.fuller;
  }

  get fullerDb(): number {
    return this.low.fullerDb;
  }

  get fullerLowHz(): number {
    return this.low.fullerLowHz;
  }

  get fullerHighHz(): number {
    return this.low.fullerHighHz;
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
    this.grid.evaluate(store, this.use, this.hits);
    for (let b = 0; b < BAND_COUNT; b++) this.band(store, b);
    this.low.evaluate(store, this.use, this.hits, this.grid);
    if (lags === null) return;
    this.near.evaluate(lags, this.use, this.hits, this.carried, isAnswer ? answered.delay : Number.NaN, factor);
  }

  /** Place of a near band in `lags`; −1: the hits don't carry it. Real-time safe: yes. */
  readonly carried = (n: number): number => {
    if (n === 0) return this.low.at < 0 ? -1 : lowOctave(this.low.at);
    if (n === 1) return this.grid.ofWhole() >= this.tuning.leastWhole ? WHOLE_BAND : -1;
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
    const c = band === undefined ? Number.NaN : this.grid.ofBand(band.lowHz, band.highHz);
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

  /** Real-time safe: yes. */
  clear(): void {
    this.hits = 0;
    this.correlation = Number.NaN;
    this.levelDifferenceDb = Number.NaN;
    this.sameSignal = false;
    this.bands.fill(Number.NaN);
    this.grid.clear();
    this.low.clear();
    this.near.clear();
  }
}
