/**
 * What the sum says over the hits of one drum: complex coherency γ on the grid and per band, and which polarity of B is fuller in the
 * drum's own low band. Every hit counts alike (scaled to equal energy); A and B are brought to equal level:
 * A±B re the power sum = 10·log10(1 ± Re γ).
 */

import { BAND_COUNT, BANDS, LOW_OCTAVES_HZ, SPECTRUM_POINTS, spectrumHz } from '../../reading/bands';
import { BAND_LENGTH, SLOT } from '../../reading/frame';
import { POOL_HITS } from '../../reading/limits';
import type { Pool } from '../delay/pool';
import { spectraSeconds } from '../hit/hitSpectra';
import type { HitStore } from '../hit/hitStore';
import { OCTAVE_BANDS, octaveLowHz } from '../signal/octaves';
import { TUNING, type Tuning } from '../tuning';
import { SUM, type SumTuning } from '../tuning/sumTuning';

/** the octave of 31.5 Hz lies below any drum of a kit */
const LOWEST_BAND = 1;
/** the drum's own low band is one of the octaves up to mid 500 Hz */
const LOW_BANDS = 5;

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

  private readonly use = new Int32Array(POOL_HITS);
  private readonly raw = new Float64Array(SPECTRUM_POINTS);
  private readonly octaveLevelA = new Float64Array(OCTAVE_BANDS);
  private readonly octaveLevelB = new Float64Array(OCTAVE_BANDS);
  private readonly tuning: SumTuning;
  /** length of a hit's stretch, s */
  private readonly seconds: number;

  constructor({ sum, hit }: Pick<Tuning, 'sum' | 'hit'> = TUNING) {
    this.tuning = sum;
    this.seconds = spectraSeconds(hit.spectra);
  }

  /** Real-time safe: yes. */
  evaluate(store: HitStore, pool: Pool): void {
    this.clear();
    for (let i = 0; i < pool.drumHits; i++) {
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
  }

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

  /** γ per grid point, hits weighted to equal energy; the coherence without its bias. */
  private grid(store: HitStore): void {
    const { seconds } = this;
    const { independent, chance } = this.tuning;
    for (let p = 0; p < SPECTRUM_POINTS; p++) {
      let re = 0;
      let im = 0;
      let aa = 0;
      let bb = 0;
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
      }
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
        const g = 1 / Math.sqrt(norm);
        this.re[p] = re * g;
        this.im[p] = im * g;
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

  private band(store: HitStore, b: number): void {
    let re = 0;
    let aa = 0;
    let bb = 0;
    let ratio = 0;
    for (let i = 0; i < this.hits; i++) {
      const s = this.use[i] as number;
      const at = s * BAND_COUNT + b;
      const ea = store.energyA[s] as number;
      const eb = store.energyB[s] as number;
      re += (store.bandProduct[at] as number) / Math.sqrt(ea * eb);
      aa += (store.bandA[at] as number) / ea;
      bb += (store.bandB[at] as number) / eb;
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
      if (carried) this.setFuller(this.lowOctaves[k - LOWEST_BAND] as number, low);
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
      const ea = store.energyA[s] as number;
      const eb = store.energyB[s] as number;
      re += (store.octaveProduct[at] as number) / Math.sqrt(ea * eb);
      aa += (store.octaveA[at] as number) / ea;
      bb += (store.octaveB[at] as number) / eb;
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
  }
}

/** Coherence of n segments without its bias (unrelated inputs average 1/n: Beta(1, n − 1), tests/reference/figures.py), 0…1. */
export function unbiased(coherence: number, segments: number): number {
  if (segments <= 1) return 0;
  return Math.max(0, Math.min(1, (coherence - 1 / segments) / (1 - 1 / segments)));
}

/** Coherence that unrelated inputs exceed in a share `chance` of the cases: 1 − chance^(1/(n−1)) (of the same distribution); `bins` averaged count as so many more. */
export function biasLimit(segments: number, bins: number, chance: number = SUM.chance): number {
  if (segments <= 1) return 1;
  return 1 - chance ** (1 / ((segments - 1) * bins));
}
