/** One track, listened to once from end to end: its level in five bands, each millisecond. All that tells who was struck is read off these. */
import { BandPowers } from './bandPowers';

/** Hz between the bands: a kick's and a floor tom's weight, bodies, sticks, wires, cymbals. This program's own choice. */
export const BAND_EDGES_HZ = [150, 500, 2000, 6000] as const;
export const BANDS = BAND_EDGES_HZ.length + 1;
/** time between two levels */
export const HOP_SECONDS = 0.001;
/** a level is kept in half decibels above this, in one byte */
export const LEAST_DB = -120;
const STEPS_A_DB = 2;
/** in a row at full scale: clipped */
const CLIP_RUN = 3;
const FULL_SCALE = 0.9999;

/** What is kept of a track: 5 bytes a millisecond. */
export interface ScannedTrack {
  sampleRate: number;
  frames: number;
  /** samples between two levels */
  hopFrames: number;
  hops: number;
  /** of each band one level a hop: half decibels above LEAST_DB, re full scale */
  bands: readonly Uint8Array[];
  /** largest |sample| */
  peak: number;
  /** runs of three or more successive full-scale samples */
  clips: number;
  /** samples that are no numbers, or absurdly large */
  unsound: number;
}

/** @returns dBFS (of a mean square, no sine's 3 dB) */
export const levelDb = (kept: number): number => LEAST_DB + kept / STEPS_A_DB;

const GROWTH = 1.5;
/** hops that are filtered at a time */
const HOPS_AT_ONCE = 20;

export class LevelScan {
  private readonly hopFrames: number;
  private readonly powers: BandPowers;
  private kept: Uint8Array<ArrayBuffer>[];
  private readonly input: Float64Array;
  /** of each hop the sum of squares in each band */
  private readonly sums = new Float64Array(HOPS_AT_ONCE * BANDS);
  private filled = 0;
  private hops = 0;
  private frames = 0;
  private peak = 0;
  private clips = 0;
  private run = 0;
  private unsound = 0;

  /** @param expectedFrames how long it is likely to be: saves copying */
  constructor(
    private readonly sampleRate: number,
    expectedFrames = 0,
  ) {
    this.hopFrames = Math.max(1, Math.round(HOP_SECONDS * sampleRate));
    this.input = new Float64Array(HOPS_AT_ONCE * this.hopFrames);
    this.powers = new BandPowers(sampleRate, BAND_EDGES_HZ, this.input.length);
    const room = Math.ceil(expectedFrames / this.hopFrames) + HOPS_AT_ONCE;
    this.kept = Array.from({ length: BANDS }, () => new Uint8Array(room));
  }

  /** The next samples, full scale ±1. */
  push(x: Float32Array): void {
    const { input } = this;
    for (let from = 0; from < x.length; ) {
      const n = Math.min(x.length - from, input.length - this.filled);
      this.take(x, from, n);
      from += n;
      this.filled += n;
      if (this.filled === input.length) this.work(HOPS_AT_ONCE);
    }
    this.frames += x.length;
  }

  /** What there is of the last hop is left out. */
  end(): ScannedTrack {
    this.work(Math.floor(this.filled / this.hopFrames));
    const { sampleRate, frames, hopFrames, hops, peak, clips, unsound } = this;
    return {
      sampleRate,
      frames,
      hopFrames,
      hops,
      peak,
      clips,
      unsound,
      bands: this.kept.map((b) => b.subarray(0, hops)),
    };
  }

  private take(x: Float32Array, from: number, n: number): void {
    const { input, filled } = this;
    for (let i = 0; i < n; i++) {
      const v = x[from + i] as number;
      const size = Math.abs(v);
      // NaN compares as false
      const sound = size <= 1000;
      if (!sound) this.unsound++;
      input[filled + i] = sound ? v : 0;
      if (sound && size > this.peak) this.peak = size;
      if (!sound || size < FULL_SCALE) this.run = 0;
      else if (++this.run === CLIP_RUN) this.clips++;
    }
  }

  /** The levels of the hops that are in. */
  private work(hops: number): void {
    const { hopFrames, input, sums } = this;
    if (this.hops + hops > (this.kept[0] as Uint8Array).length) this.grow();
    this.powers.run(input, hops, hopFrames, sums);
    for (let b = 0; b < BANDS; b++) {
      const kept = this.kept[b] as Uint8Array;
      for (let h = 0; h < hops; h++) {
        const db = 10 * Math.log10((sums[h * BANDS + b] as number) / hopFrames);
        const level = Math.max(0, Math.min(255, Math.round((db - LEAST_DB) * STEPS_A_DB)));
        // memory that nothing is written to costs nothing: silence is nothing
        if (level > 0) kept[this.hops + h] = level;
      }
    }
    this.hops += hops;
    this.filled = 0;
  }

  private grow(): void {
    this.kept = this.kept.map((old) => {
      const more = new Uint8Array(Math.ceil(old.length * GROWTH) + HOPS_AT_ONCE);
      more.set(old);
      return more;
    });
  }
}
