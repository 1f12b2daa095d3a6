/**
 * Which of the newest hits belong to one drum, and what most of them say: by their first arrivals, and by the single
 * hits' correlation.
 */
import type { HitStore } from './hitStore';
import { HITS_KEPT } from './reading';
import { Trend } from './trend';
import { ModeFinder, median, POOL_HITS, Witness } from './witness';

export const HITS_NEEDED = 4;
/** hits of one drum: level ratio within, dB · tilt within, dB */
const SAME_DRUM_RATIO_DB = 5;
const SAME_DRUM_TILT_DB = 10;
export const USABLE_QUALITY = 8;
const FULL_QUALITY = 16;
const PICK_SHARE = 0.75;
const PICK_SPREAD_SECONDS = 0.00005;
const CLEAR_RIVAL = 0.5;
const WAVE_SHARE = 0.85;
/** a channel with this much more 40–250 Hz than 2–12 kHz has no attack to read */
const LOW_END_ONLY_DB = 42;
/** newest hits that must agree among themselves against the rest to say that something moved */
const MOVED_HITS = 3;
/** hits that still count while a microphone is on the move, and after a step */
const FOLLOWED_HITS = 6;
const STEPPED_HITS = 2;

export class Pool {
  /** slots of the hits in the running, oldest first; those of the chosen drum are marked */
  readonly slots = new Int32Array(POOL_HITS);
  readonly ofDrum = new Uint8Array(POOL_HITS);
  /** hits behind each witness's answer */
  readonly inPick = new Uint8Array(POOL_HITS);
  readonly inWave = new Uint8Array(POOL_HITS);
  /** slots of the chosen drum's hits: the first drumHits entries */
  readonly drumSlots = new Int32Array(POOL_HITS);
  length = 0;
  /** hits of the chosen drum */
  drumHits = 0;
  /** median attack over the noise before, the weaker channel, dB */
  drumSnrDb = Number.NaN;
  clippedA = 0;
  clippedB = 0;
  onlyA = 0;
  onlyB = 0;
  lowEndA = false;
  lowEndB = false;
  /** the newest hits agree with each other against the answer */
  moved = false;
  readonly picks = new Witness();
  readonly waves = new Witness();
  /** mostly, noise hides where the drum begins */
  hidden = false;

  private readonly spreadSamples: number;
  /** line and step through the newest first arrivals of the drum */
  readonly trend: Trend;
  private readonly mode: ModeFinder;
  private readonly sorted = new Float64Array(POOL_HITS);

  constructor(sampleRate: number) {
    this.mode = new ModeFinder(sampleRate);
    this.trend = new Trend(sampleRate);
    this.spreadSamples = PICK_SPREAD_SECONDS * sampleRate;
  }

  /** Real-time safe: yes. */
  evaluate(store: HitStore): void {
    this.gather(store);
    this.chooseDrum(store);
    this.judgePicks(store);
    if (this.forgetBeforeMove(store) || this.forgetBeforeTrend(store)) {
      this.gather(store);
      this.chooseDrum(store);
      this.judgePicks(store);
    }
    for (let i = 0; i < this.length; i++) this.inPick[i] = this.mode.member[i] as number;
    this.judgeWaves(store);
    for (let i = 0; i < this.length; i++) this.inWave[i] = this.mode.member[i] as number;
    this.drumSnrDb = this.medianSnr(store);
  }

  private gather(store: HitStore): void {
    this.length = 0;
    this.clippedA = 0;
    this.clippedB = 0;
    this.onlyA = 0;
    this.onlyB = 0;
    const first = Math.max(store.first, store.oldUpTo + 1, store.count - POOL_HITS + 1);
    for (let serial = first; serial <= store.count; serial++) {
      const s = store.slot(serial);
      if (!store.hasArrival[s]) continue;
      const clip = store.clipped[s] as number;
      if (clip & 1) this.clippedA++;
      if (clip & 2) this.clippedB++;
      if ((store.oneSided[s] as number) > 0) this.onlyA++;
      if ((store.oneSided[s] as number) < 0) this.onlyB++;
      this.slots[this.length++] = s;
    }
  }

  private fit(store: HitStore, s: number): boolean {
    return store.clipped[s] === 0 && store.oneSided[s] === 0;
  }

  /** The drum that is loudest in A: the neighbourhood in level ratio and tilt with the largest summed amplitude. */
  private chooseDrum(store: HitStore): void {
    let best = -1;
    let centre = -1;
    for (let i = 0; i < this.length; i++) {
      const c = this.slots[i] as number;
      if (!this.fit(store, c)) continue;
      let sum = 0;
      for (let j = 0; j < this.length; j++) {
        const s = this.slots[j] as number;
        if (this.fit(store, s) && this.alike(store, c, s)) sum += 10 ** ((store.levelA[s] as number) / 20);
      }
      if (sum > best) {
        best = sum;
        centre = c;
      }
    }
    this.drumHits = 0;
    let lowA = 0;
    let lowB = 0;
    let hidden = 0;
    for (let i = 0; i < this.length; i++) {
      const s = this.slots[i] as number;
      const of = centre >= 0 && this.fit(store, s) && this.alike(store, centre, s);
      this.ofDrum[i] = of ? 1 : 0;
      if (!of) continue;
      this.drumSlots[this.drumHits++] = s;
      if ((store.tiltA[s] as number) > LOW_END_ONLY_DB) lowA++;
      if ((store.tiltB[s] as number) > LOW_END_ONLY_DB) lowB++;
      if (store.pickHidden[s]) hidden++;
    }
    this.lowEndA = 2 * lowA > this.drumHits;
    this.lowEndB = 2 * lowB > this.drumHits;
    this.hidden = 2 * hidden > this.drumHits;
  }

  private alike(store: HitStore, c: number, s: number): boolean {
    const ratio = (store.levelA[s] as number) - (store.levelB[s] as number);
    const centre = (store.levelA[c] as number) - (store.levelB[c] as number);
    const tilt = (store.tiltA[s] as number) + (store.tiltB[s] as number);
    const tiltCentre = (store.tiltA[c] as number) + (store.tiltB[c] as number);
    return Math.abs(ratio - centre) <= SAME_DRUM_RATIO_DB && Math.abs(tilt - tiltCentre) <= 2 * SAME_DRUM_TILT_DB;
  }

  private judgePicks(store: HitStore): void {
    for (let i = 0; i < this.length; i++) {
      const s = this.slots[i] as number;
      const q = store.pickQuality[s] as number;
      const usable = this.ofDrum[i] && !Number.isNaN(store.pickDelay[s] as number) && q >= USABLE_QUALITY;
      this.mode.weight[i] = usable ? Math.min(1, q / FULL_QUALITY) : 0;
      this.mode.value[i] = store.pickDelay[s] as number;
      this.mode.sign[i] = store.pickSign[s] as number;
    }
    const w = this.picks;
    this.mode.find(this.length, w);
    w.sure =
      w.members >= HITS_NEEDED &&
      w.share >= PICK_SHARE &&
      2 * w.candidates >= this.drumHits &&
      w.spread <= this.spreadSamples;
  }

  private judgeWaves(store: HitStore): void {
    for (let i = 0; i < this.length; i++) {
      const s = this.slots[i] as number;
      const clear = this.ofDrum[i] && (store.waveRival[s] as number) < CLEAR_RIVAL;
      this.mode.weight[i] = clear ? 1 : 0;
      this.mode.value[i] = store.waveDelay[s] as number;
      this.mode.sign[i] = store.waveSign[s] as number;
    }
    const w = this.waves;
    this.mode.find(this.length, w);
    w.sure = w.members >= HITS_NEEDED && w.share >= WAVE_SHARE && 2 * w.candidates >= this.drumHits;
  }

  /** If the newest hits agree with each other against the answer, the ones before them are history. */
  private forgetBeforeMove(store: HitStore): boolean {
    this.moved = false;
    let against = 0;
    let newest = -1;
    let oldest = -1;
    for (let i = this.length - 1; i >= 0; i--) {
      if ((this.mode.weight[i] as number) <= 0) continue;
      if (this.mode.member[i] || (newest >= 0 && !this.mode.near(newest, i))) break;
      if (newest < 0) newest = i;
      oldest = i;
      against++;
    }
    if (against < 2 || this.picks.members < HITS_NEEDED) return false;
    if (against < MOVED_HITS) {
      this.moved = true;
      return false;
    }
    return this.forgetBefore(store, oldest);
  }

  /** A microphone on the move: only the newest hits count. A step: only the two after it. */
  private forgetBeforeTrend(store: HitStore): boolean {
    const { trend } = this;
    trend.clear();
    let newest = -1;
    for (let i = this.length - 1; i >= 0 && newest < 0; i--) if ((this.mode.weight[i] as number) > 0) newest = i;
    if (newest < 0) {
      trend.judge();
      return false;
    }
    for (let i = 0; i <= newest; i++) {
      if ((this.mode.weight[i] as number) <= 0 || this.mode.sign[i] !== this.mode.sign[newest]) continue;
      trend.add(this.serialOf(store, this.slots[i] as number), this.mode.value[i] as number);
    }
    trend.judge();
    if (!trend.moving && !trend.stepped) return false;
    let keep = trend.moving ? FOLLOWED_HITS : STEPPED_HITS;
    for (let i = newest; i >= 0; i--) {
      if ((this.mode.weight[i] as number) <= 0) continue;
      keep--;
      if (keep === 0) return this.forgetBefore(store, i);
    }
    return false;
  }

  /** @returns true if hits were dropped */
  private forgetBefore(store: HitStore, i: number): boolean {
    const upTo = this.serialOf(store, this.slots[i] as number) - 1;
    if (upTo <= store.oldUpTo) return false;
    store.oldUpTo = upTo;
    return i > 0;
  }

  private medianSnr(store: HitStore): number {
    for (let i = 0; i < this.drumHits; i++) this.sorted[i] = store.snrDb[this.drumSlots[i] as number] as number;
    return median(this.sorted, this.drumHits);
  }

  /** Serial of the hit in a slot. Real-time safe: yes. */
  serialOf(store: HitStore, slot: number): number {
    const newestSlot = store.slot(store.count);
    return store.count - ((newestSlot - slot + HITS_KEPT) % HITS_KEPT);
  }
}
