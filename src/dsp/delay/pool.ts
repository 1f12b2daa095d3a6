/** What the newest hits of one drum say: by their first arrivals, by their low end, and by the single hits' correlation. */
import { POOL_HITS } from '../../reading/limits';
import type { HitStore } from '../hit/hitStore';
import { median } from '../signal/median';
import { ModeFinder } from '../signal/modeFinder';
import { TUNING, type Tuning } from '../tuning';
import { HitWitnesses } from './hitWitnesses';
import { FOLLOWING, Motion, SETTLING, STEADY } from './motion';
import { Witness } from './witness';

export class Pool {
  /** slots of the drum's hits in the running, oldest first: the first drumHits entries */
  readonly drumSlots = new Int32Array(POOL_HITS);
  drumHits = 0;
  /** hits behind each witness's answer */
  readonly inPick = new Uint8Array(POOL_HITS);
  readonly inLow = new Uint8Array(POOL_HITS);
  readonly inWave = new Uint8Array(POOL_HITS);
  /** hits up to this serial are no longer in the running */
  oldUpTo = 0;
  /** median attack over the noise before, the weaker channel, dB */
  drumSnrDb = Number.NaN;
  /** median peaks, dBFS */
  levelADbfs = Number.NaN;
  levelBDbfs = Number.NaN;
  lowEndA = false;
  lowEndB = false;
  readonly picks = new Witness();
  readonly lows = new Witness();
  readonly waves = new Witness();
  /** where the low end of most of its hits first pushes, also behind something high: too coarse for an answer, never far off */
  readonly deep = new Witness();
  /** mostly, noise hides where the drum begins */
  hidden = false;
  /** whether a microphone moves, by the drum's first arrivals */
  readonly motion: Motion;

  private readonly hitsNeeded: number;
  readonly witnesses: HitWitnesses;
  private readonly spreadSamples: number;
  private readonly mode: ModeFinder;
  private readonly sorted = new Float64Array(POOL_HITS);
  /** oldUpTo before the newest drop, and the newest hit that motion has seen */
  private oldBefore = 0;
  private seen = 0;
  private led = false;
  private readmit = false;
  /** delay of those that the low end led; NaN while there are too few */
  private alikeFrom = Number.NaN;

  constructor(
    private readonly sampleRate: number,
    private readonly tuning: Tuning = TUNING,
  ) {
    const { delay } = tuning;
    this.mode = new ModeFinder(delay.mode.withinSeconds * sampleRate, delay.mode.newestHits, POOL_HITS);
    this.motion = new Motion(sampleRate, delay.motion);
    this.hitsNeeded = delay.hitsNeeded;
    this.witnesses = new HitWitnesses(tuning);
    this.spreadSamples = delay.pick.spreadSeconds * sampleRate;
  }

  /** A drum that begins: forget all of the one before. Real-time safe: yes. */
  clear(): void {
    this.drumHits = 0;
    this.oldUpTo = 0;
    this.oldBefore = 0;
    this.seen = 0;
    this.motion.reset();
  }

  /**
   * Real-time safe: yes.
   * @param drum the hits' number in the store
   * @param led the drum's low end begins its hits: leave those out that something higher began
   */
  evaluate(store: HitStore, drum: number, led: boolean): void {
    this.led = led;
    this.readmit = false;
    this.gather(store, drum);
    this.witnesses.judgeReach(store, this.drumSlots, this.drumHits);
    if (led) {
      // those of them that begin as the others do are the same drum, with a sharp stroke
      this.judgePicks(store);
      this.readmit = true;
      this.alikeFrom = this.drumHits >= this.hitsNeeded ? this.picks.delay : Number.NaN;
      this.gather(store, drum);
    }
    if (this.watchMotion(store)) this.gather(store, drum);
    this.judgePicks(store);
    this.judgeLows(store);
    this.judgeDeep(store);
    this.judgeWaves(store);
    this.describe(store);
  }

  /** The jump that was seen last was none: hits from there on count again. Real-time safe: yes. */
  restore(oldUpTo: number): void {
    this.oldUpTo = oldUpTo;
    this.oldBefore = oldUpTo;
    this.motion.reset();
  }

  /** Hits up to this serial no longer count. Real-time safe: yes. @returns true if any did until now */
  forgetUpTo(store: HitStore, drum: number, serial: number): boolean {
    if (serial <= this.oldUpTo) return false;
    let any = false;
    for (let i = 0; i < store.kept; i++) {
      const s = store.at(i);
      const at = store.serial[s] as number;
      if (at > this.oldUpTo && at <= serial && store.drum[s] === drum) any = true;
    }
    this.oldUpTo = serial;
    this.oldBefore = serial;
    this.motion.reset();
    return any;
  }

  private gather(store: HitStore, drum: number): void {
    let n = 0;
    for (let i = store.kept - 1; i >= 0 && n < POOL_HITS; i--) {
      const s = store.at(i);
      if ((store.serial[s] as number) <= this.oldUpTo) break;
      if (!store.hasArrival[s] || store.drum[s] !== drum) continue;
      const apart = this.led && store.highLed[s] && !this.beginsAlike(store, s);
      if (!apart) this.drumSlots[n++] = s;
      // before it is known how the others begin, nothing is said of it
      if (!this.led || this.readmit) store.mixed[s] = apart ? 1 : 0;
    }
    this.drumHits = n;
    // oldest first
    for (let i = 0; 2 * i < n - 1; i++) {
      const s = this.drumSlots[i] as number;
      this.drumSlots[i] = this.drumSlots[n - 1 - i] as number;
      this.drumSlots[n - 1 - i] = s;
    }
  }

  private beginsAlike(store: HitStore, s: number): boolean {
    return (
      this.readmit &&
      this.witnesses.usable(store, s) &&
      store.pickSign[s] === this.picks.sign &&
      Math.abs((store.pickDelay[s] as number) - this.alikeFrom) <= this.mode.withinSamples
    );
  }

  /** Let hits go that a move has made old. @returns true if the pool has changed */
  private watchMotion(store: HitStore): boolean {
    if (!this.tuning.parts.motion) return false;
    const { motion, witnesses } = this;
    let newest = 0;
    motion.clear();
    witnesses.choose(store, this.drumSlots, this.drumHits);
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      if (!witnesses.watches(store, s)) continue;
      motion.add(
        (store.trigger[s] as number) / this.sampleRate,
        witnesses.delay[s] as number,
        witnesses.sign[s] as number,
      );
      newest = this.serialOf(store, s);
    }
    if (newest === this.seen) return false;
    this.seen = newest;
    motion.judge();
    if (motion.undo) {
      this.oldUpTo = this.oldBefore;
      return true;
    }
    if (motion.keep >= motion.count) return false;
    let drop = motion.count - motion.keep;
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      if (!witnesses.watches(store, s) || drop-- > 0) continue;
      this.oldBefore = this.oldUpTo;
      this.oldUpTo = this.serialOf(store, s) - 1;
      return true;
    }
    return false;
  }

  private judgePicks(store: HitStore): void {
    const { fullQuality } = this.tuning.delay.pick;
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      if (this.witnesses.usable(store, s))
        this.mode.weight[i] = Math.min(1, (store.pickQuality[s] as number) / fullQuality);
      else this.mode.weight[i] = 0;
      this.mode.value[i] = store.pickDelay[s] as number;
      this.mode.sign[i] = store.pickSign[s] as number;
    }
    const w = this.picks;
    this.mode.find(this.drumHits, w);
    w.sure = this.convincing(w) && w.spread <= this.spreadSamples;
    this.inPick.set(this.mode.member);
  }

  private judgeLows(store: HitStore): void {
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      this.mode.weight[i] = this.witnesses.low(store, s) ? 1 : 0;
      this.mode.value[i] = store.lowDelay[s] as number;
      this.mode.sign[i] = store.lowSign[s] as number;
    }
    const w = this.lows;
    this.mode.find(this.drumHits, w);
    // noise, or what still rings, may hide a softer push before it: a hit must show that there is none
    let clear = 0;
    for (let i = 0; i < this.drumHits; i++)
      if (this.mode.member[i] && !store.noiseBound[this.drumSlots[i] as number]) clear++;
    const { parts, delay } = this.tuning;
    w.sure = parts.lowAnswer && clear >= delay.low.clearHits && this.convincing(w) && w.spread <= this.spreadSamples;
    this.inLow.set(this.mode.member);
  }

  private judgeDeep(store: HitStore): void {
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      this.mode.weight[i] = !Number.isNaN(store.lowDelay[s] as number) && this.reaches(store, s) ? 1 : 0;
      this.mode.value[i] = store.lowDelay[s] as number;
      this.mode.sign[i] = store.lowSign[s] as number;
    }
    const w = this.deep;
    this.mode.find(this.drumHits, w);
    const { hits, share } = this.tuning.delay.likely.deep;
    w.sure = this.tuning.parts.deepPushes && w.members >= hits && w.members >= share * this.drumHits;
  }

  private judgeWaves(store: HitStore): void {
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      this.mode.weight[i] = this.witnesses.clear(store, s) ? 1 : 0;
      this.mode.value[i] = store.waveDelay[s] as number;
      this.mode.sign[i] = store.waveSign[s] as number;
    }
    const w = this.waves;
    this.mode.find(this.drumHits, w);
    const { share, clearShare } = this.tuning.delay.wave;
    w.sure = w.members >= this.hitsNeeded && w.share >= share && w.candidates >= clearShare * this.drumHits;
    this.inWave.set(this.mode.member);
  }

  private convincing(w: Witness): boolean {
    const { share, usableShare } = this.tuning.delay.pick;
    return w.members >= this.hitsNeeded && w.share >= share && w.candidates >= usableShare * this.drumHits;
  }

  private describe(store: HitStore): void {
    let lowA = 0;
    let lowB = 0;
    let hidden = 0;
    const { lowEndOnlyDb } = this.tuning.delay;
    for (let i = 0; i < this.drumHits; i++) {
      const s = this.drumSlots[i] as number;
      if ((store.tiltA[s] as number) > lowEndOnlyDb) lowA++;
      if ((store.tiltB[s] as number) > lowEndOnlyDb) lowB++;
      if (store.pickHidden[s]) hidden++;
    }
    this.lowEndA = 2 * lowA > this.drumHits;
    this.lowEndB = 2 * lowB > this.drumHits;
    this.hidden = this.tuning.parts.hiddenPushes && 2 * hidden > this.drumHits;
    this.drumSnrDb = this.medianOf(store.snrDb);
    this.levelADbfs = this.medianOf(store.levelA);
    this.levelBDbfs = this.medianOf(store.levelB);
  }

  private medianOf(values: Float64Array): number {
    for (let i = 0; i < this.drumHits; i++) this.sorted[i] = values[this.drumSlots[i] as number] as number;
    return median(this.sorted, this.drumHits);
  }

  /** The single hits' first arrivals don't do: noise hides them, or few are usable. */
  get wantsStack(): boolean {
    if (!this.tuning.parts.stack) return false;
    const few = this.picks.candidates < this.tuning.delay.pick.usableShare * this.drumHits;
    const lowEnd = this.lowEndA || this.lowEndB;
    return this.drumHits >= this.hitsNeeded && !this.following && !lowEnd && (this.hidden || few);
  }

  /** The drum is read in the far reach. */
  get far(): boolean {
    return this.witnesses.far;
  }

  /** What the hit says counts in that reach. Real-time safe: yes. */
  reaches(store: HitStore, slot: number): boolean {
    return this.witnesses.reaches(store, slot);
  }

  get following(): boolean {
    return this.motion.mode === FOLLOWING;
  }

  get settling(): boolean {
    return this.motion.mode === SETTLING;
  }

  get steady(): boolean {
    return this.motion.mode === STEADY;
  }

  /** Serial of the hit in a slot. Real-time safe: yes. */
  serialOf(store: HitStore, slot: number): number {
    return store.serial[slot] as number;
  }
}
