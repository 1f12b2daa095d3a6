/** The drum's low octave: the lowest that carries the drum in both microphones, and which polarity of B is fuller there. */
import { LOW_OCTAVES_HZ } from '../../reading/bands';
import type { HitStore } from '../hit/hitStore';
import { OCTAVE_BANDS, octaveLowHz } from '../signal/octaves';
import type { SumTuning } from '../tuning/sumTuning';
import { db } from './decibels';
import type { GridCoherency } from './gridCoherency';

/** the octave of 31.5 Hz lies below any drum of a kit */
const LOWEST_BAND = 1;
/** it is one of the octaves up to mid 500 Hz */
const LOW_BANDS = 5;

export class LowOctave {
  /** 0 as-is, 1 inverted, 2 either, NaN none; the octave's edges */
  fuller = Number.NaN;
  fullerDb = Number.NaN;
  fullerLowHz = Number.NaN;
  fullerHighHz = Number.NaN;
  /** Re γ per octave of LOW_OCTAVES_HZ; NaN where the hits don't carry it */
  readonly octaves = new Float64Array(LOW_OCTAVES_HZ.length).fill(Number.NaN);
  /** place of the drum's in LOW_OCTAVES_HZ; −1: none that the hits carry */
  at = -1;
  private readonly levelA = new Float64Array(OCTAVE_BANDS);
  private readonly levelB = new Float64Array(OCTAVE_BANDS);

  constructor(private readonly tuning: SumTuning) {}

  /** Real-time safe: yes. @param slots the hits, the first `hits` of them; @param grid what of it they carry */
  evaluate(store: HitStore, slots: Int32Array, hits: number, grid: GridCoherency): void {
    const { withinStrongestDb } = this.tuning;
    let strongestA = Number.NEGATIVE_INFINITY;
    let strongestB = Number.NEGATIVE_INFINITY;
    for (let k = 0; k < OCTAVE_BANDS; k++) {
      let a = 0;
      let b = 0;
      for (let i = 0; i < hits; i++) {
        const s = slots[i] as number;
        a += (store.octaveA[s * OCTAVE_BANDS + k] as number) / (store.energyA[s] as number);
        b += (store.octaveB[s * OCTAVE_BANDS + k] as number) / (store.energyB[s] as number);
      }
      this.levelA[k] = db(a / hits);
      this.levelB[k] = db(b / hits);
      strongestA = Math.max(strongestA, this.levelA[k] as number);
      strongestB = Math.max(strongestB, this.levelB[k] as number);
    }
    let found = false;
    for (let k = LOWEST_BAND; k < LOW_BANDS; k++) {
      if (!this.overNoise(store, slots, hits, k)) continue;
      const low = octaveLowHz(k);
      const carried = !Number.isNaN(grid.ofBand(low, 2 * low));
      if (carried) this.octaves[k - LOWEST_BAND] = octaveGamma(store, slots, hits, k);
      if (found || (this.levelA[k] as number) < strongestA - withinStrongestDb) continue;
      if ((this.levelB[k] as number) < strongestB - withinStrongestDb) continue;
      found = true;
      if (!carried) continue;
      this.at = k - LOWEST_BAND;
      this.setFuller(this.octaves[k - LOWEST_BAND] as number, low);
    }
  }

  /** The hits stand over the quietest stretch between them, in both microphones. */
  private overNoise(store: HitStore, slots: Int32Array, hits: number, k: number): boolean {
    let a = 0;
    let b = 0;
    let na = Number.POSITIVE_INFINITY;
    let nb = Number.POSITIVE_INFINITY;
    for (let i = 0; i < hits; i++) {
      const at = (slots[i] as number) * OCTAVE_BANDS + k;
      a += store.octaveA[at] as number;
      b += store.octaveB[at] as number;
      na = Math.min(na, store.noiseA[at] as number);
      nb = Math.min(nb, store.noiseB[at] as number);
    }
    const over = 10 ** (this.tuning.overNoiseDb / 10);
    return a / hits > over * na && b / hits > over * nb;
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
    this.fuller = Number.NaN;
    this.fullerDb = Number.NaN;
    this.fullerLowHz = Number.NaN;
    this.fullerHighHz = Number.NaN;
    this.octaves.fill(Number.NaN);
    this.at = -1;
  }
}

/** Re γ of octave k, A and B at equal level. */
function octaveGamma(store: HitStore, slots: Int32Array, hits: number, k: number): number {
  let re = 0;
  let aa = 0;
  let bb = 0;
  for (let i = 0; i < hits; i++) {
    const s = slots[i] as number;
    const at = s * OCTAVE_BANDS + k;
    re += store.octaveProduct[at] as number;
    aa += store.octaveA[at] as number;
    bb += store.octaveB[at] as number;
  }
  return Math.max(-0.9999, Math.min(0.9999, re / Math.sqrt(aa * bb)));
}
