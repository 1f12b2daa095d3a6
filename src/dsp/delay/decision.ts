/**
 * The answer from the witnesses: first arrivals of the hits and of their average, the best fit of all attacks, the single
 * hits' correlation. Where two that are sure contradict each other there is none; where noise could hide the first push in
 * the single hits, their average or a second witness is asked.
 * This is what the reading shows; it changes only in `decide`.
 */

import { FATE, METHOD } from '../../reading/codes';
import { HITS_NEEDED, POOL_HITS } from '../../reading/limits';
import { USABLE_QUALITY } from '../hit/arrival';
import type { HitStore } from '../hit/hitStore';
import type { AttackFit } from './attackFit';
import type { Pool } from './pool';
import type { Stack } from './stack';
import { isUnlike, pushesBent, uncertaintyOf } from './uncertainty';

const WITNESS_SECONDS = 0.0003;
/** largest uncertainty of an answer from the low end: 2.4 cm of path */
const LOW_UNCERTAINTY_SECONDS = 0.00007;
/** median deviation of the low end's pushes, and share of the attacks that fit, for such an answer */
const LOW_SPREAD_SECONDS = 0.000018;
const LOW_FIT_AGREEMENT = 0.6;
/** first arrivals of the single hits lie this close to that of their average */
const STACK_SECONDS = 0.00015;
/** hits which an average needs to answer where the single hits' arrivals can't */
const STACK_HITS = 8;
/** how far noise may move such an answer, with and without another witness near */
const STACK_MOVE_SECONDS = 0.00008;
const STACK_MOVE_ALONE_SECONDS = 0.00004;
const FIT_TRUST = 0.3;
/** share of the drum's hits that must be behind an answer */
const LEAST_AGREEMENT = 0.75;
const FIT_SNR_DB = 15;
/** share of the hits whose first pushes must have the fit's sign */
const FIT_SIGNS = 0.45;

export class Decision {
  /** NaN, and sign 0, while there is no answer */
  delay = Number.NaN;
  sign = 0;
  spread = Number.NaN;
  agreement = Number.NaN;
  uncertainty = Number.NaN;
  members = 0;
  method = Number.NaN;
  /** a microphone is on the move: `delay` is where it was at the newest hit */
  following = false;
  /** two witnesses are sure of different things */
  contradiction = false;
  /** hits of the drum in the running, and with usable first arrivals, as of the decision */
  drumHits = 0;
  usable = 0;
  lowEndA = false;
  lowEndB = false;
  /** something moved, and too few hits came since */
  moved = false;
  hidden = false;
  /** 1: the pool's hit i is behind the answer */
  readonly inAnswer = new Uint8Array(POOL_HITS);

  private readonly inBoth = new Uint8Array(POOL_HITS);
  private readonly witnessSamples: number;
  private readonly lowUncertainty: number;
  private readonly lowSpread: number;

  constructor(private readonly sampleRate: number) {
    this.witnessSamples = WITNESS_SECONDS * sampleRate;
    this.lowUncertainty = LOW_UNCERTAINTY_SECONDS * sampleRate;
    this.lowSpread = LOW_SPREAD_SECONDS * sampleRate;
  }

  /** Real-time safe: yes. Sets the fates of the hits in the store. */
  decide(store: HitStore, pool: Pool, fit: AttackFit, stack: Stack): void {
    this.copy(pool);
    const p = pool.picks;
    const w = pool.waves;
    const fitSure = this.fitSure(store, pool, fit);
    const stacked = this.stackSure(store, pool, fit, stack, fitSure);
    const clean = p.sure && (stacked || !pool.hidden);
    // clean first pushes are the landmark; the best fit may lie on a later swing, but not with the other sign
    const pickFit =
      !p.sure || !fitSure || (clean ? p.sign === fit.sign : this.agree(p.delay, p.sign, fit.delay, fit.sign));
    const pickWave = !p.sure || !w.sure || this.agree(p.delay, p.sign, w.delay, w.sign);
    this.contradiction = !(pickFit && pickWave);
    // where noise may hide a first push, a second witness has to be near
    const backed = w.sure || (fit.sign !== 0 && this.agree(p.delay, p.sign, fit.delay, fit.sign));
    this.delay = Number.NaN;
    this.sign = 0;
    this.spread = Number.NaN;
    this.method = Number.NaN;
    this.uncertainty = Number.NaN;
    this.members = p.members;
    this.inAnswer.set(pool.inPick);
    this.following = pool.following;
    if (this.following) {
      this.delay = pool.motion.end;
      this.contradiction = false;
    } else if (!this.contradiction) {
      const behind = stacked ? this.behindStack(store, pool, stack) : 0;
      const members = Math.max(behind, p.members);
      // noise bends the single hits' picks, the hits' scatter bends their average: halfway where both are good
      const middle = stacked ? (p.delay + stack.delay) / 2 : p.delay;
      if (p.sure && (backed || !pool.hidden)) this.take(METHOD['first-arrival'], middle, p.sign, p.spread, members);
      else if (stacked) this.take(METHOD['first-arrival'], stack.delay, stack.sign, stack.spread, members);
      if (this.sign !== 0) {
        if (members > p.members) this.inAnswer.set(this.inBoth);
      } else if (w.sure && this.agree(w.delay, w.sign, fit.delay, fit.sign)) {
        this.take(METHOD.waveform, w.delay, w.sign, w.spread, w.members);
        this.inAnswer.set(pool.inWave);
      } else if (this.lowSure(pool, fit)) {
        const l = pool.lows;
        this.take(METHOD['low-band'], l.delay, l.sign, l.spread, l.members);
        this.inAnswer.set(pool.inLow);
      }
    }
    this.agreement = pool.drumHits > 0 ? this.members / pool.drumHits : Number.NaN;
    // a minority may be another drum, a reflection or a hi-hat that comes first
    if (this.agreement < LEAST_AGREEMENT) this.sign = 0;
    if (this.method === METHOD['first-arrival'] && pushesBent(this.sampleRate, store, pool, fit, this.delay)) {
      this.contradiction = true;
      this.sign = 0;
    }
    const move = stacked ? Math.hypot(stack.noiseMove, stack.delay - this.delay) : 0;
    if (this.sign !== 0) this.uncertainty = uncertaintyOf(this.sampleRate, store, pool, fit, this, move);
    // tops or low ends so unlike that a push alone proves nothing: the best fit has to lie near, with the same sign
    if (this.sign !== 0 && Number.isNaN(this.uncertainty) && isUnlike(store, pool)) {
      this.contradiction = true;
      this.sign = 0;
    }
    // the low end rises slowly: it answers only where the whole attack says nearly the same
    if (this.method === METHOD['low-band'] && !(this.uncertainty <= this.lowUncertainty)) this.sign = 0;
    this.setFates(store, pool);
  }

  private copy(pool: Pool): void {
    this.drumHits = pool.drumHits;
    this.usable = pool.picks.candidates;
    this.lowEndA = pool.lowEndA;
    this.lowEndB = pool.lowEndB;
    this.moved = pool.settling || (pool.oldUpTo > 0 && pool.drumHits < HITS_NEEDED);
    this.hidden = pool.hidden;
  }

  /** The low end's first pushes agree closely, the attacks fit, and most of what the whole signal shows goes the same way. */
  private lowSure(pool: Pool, fit: AttackFit): boolean {
    const { lows, picks } = pool;
    const close = lows.spread <= this.lowSpread && fit.agree >= LOW_FIT_AGREEMENT;
    return lows.sure && close && (picks.members === 0 || picks.sign === lows.sign);
  }

  private take(method: number, delay: number, sign: number, spread: number, members: number): void {
    this.method = method;
    this.delay = delay;
    this.sign = sign;
    this.spread = spread;
    this.members = members;
  }

  /** The average of the hits says where the first pushes are, and nothing that can be read says otherwise. */
  private stackSure(store: HitStore, pool: Pool, fit: AttackFit, stack: Stack, fitSure: boolean): boolean {
    const fitNear = this.agree(fit.delay, fit.sign, stack.delay, stack.sign);
    if (stack.sign === 0 || (stack.bound && !fitNear)) return false;
    if (fitSure && fit.sign !== stack.sign) return false;
    if (pool.lows.sure && pool.lows.sign !== stack.sign) return false;
    const w = pool.waves;
    if (w.sure && !this.agree(w.delay, w.sign, stack.delay, stack.sign)) return false;
    const near = STACK_SECONDS * this.sampleRate;
    if (pool.picks.sure) return pool.picks.sign === stack.sign && Math.abs(pool.picks.delay - stack.delay) <= near;
    const most = (fitNear ? STACK_MOVE_SECONDS : STACK_MOVE_ALONE_SECONDS) * this.sampleRate;
    if (stack.members < STACK_HITS || stack.noiseMove > most) return false;
    let alike = 0;
    let other = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      // what noise hides in the single hit, the average may show
      if (Number.isNaN(store.pickDelay[s] as number) || store.pickHidden[s]) continue;
      const same =
        store.pickSign[s] === stack.sign && Math.abs((store.pickDelay[s] as number) - stack.delay) <= 2 * near;
      if (same) alike++;
      else other++;
    }
    return alike >= other;
  }

  /** Hits in the average, and those unlike it whose own first arrivals say the same; they are marked in inBoth. */
  private behindStack(store: HitStore, pool: Pool, stack: Stack): number {
    let n = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      const off = Math.abs((store.pickDelay[s] as number) - stack.delay);
      const same = store.pickSign[s] === stack.sign && off <= STACK_SECONDS * this.sampleRate;
      this.inBoth[i] = stack.inStack[i] || same ? 1 : 0;
      n += this.inBoth[i] as number;
    }
    return n;
  }

  private agree(delayA: number, signA: number, delayB: number, signB: number): boolean {
    return signA === signB && Math.abs(delayA - delayB) <= this.witnessSamples;
  }

  /** trust = agreement × how far the runner-up lies behind; and the first pushes mostly go the same way. */
  private fitSure(store: HitStore, pool: Pool, fit: AttackFit): boolean {
    if (fit.sign === 0 || fit.members < HITS_NEEDED || 2 * fit.members < pool.drumHits) return false;
    if (!(pool.drumSnrDb >= FIT_SNR_DB) || fit.agree * (1 - fit.runnerUp) < FIT_TRUST) return false;
    let same = 0;
    for (let i = 0; i < pool.drumHits; i++) if (store.pickSign[pool.drumSlots[i] as number] === fit.sign) same++;
    return same > FIT_SIGNS * pool.drumHits;
  }

  private setFates(store: HitStore, pool: Pool): void {
    if (pool.drumHits === 0) return;
    const drum = store.drum[pool.drumSlots[0] as number];
    const inRunning = pool.serialOf(store, pool.drumSlots[0] as number);
    for (let serial = store.first; serial < inRunning; serial++) {
      const s = store.slot(serial);
      if (store.hasArrival[s] && store.drum[s] === drum) store.fate[s] = FATE.old;
    }
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      if (this.inAnswer[i]) store.fate[s] = FATE.used;
      else if (Number.isNaN(store.pickDelay[s] as number) || (store.pickQuality[s] as number) < USABLE_QUALITY)
        store.fate[s] = FATE['no-arrival'];
      else store.fate[s] = FATE.disagrees;
    }
  }

  /** A drum that begins. Real-time safe: yes. */
  clear(): void {
    this.delay = Number.NaN;
    this.sign = 0;
    this.spread = Number.NaN;
    this.agreement = Number.NaN;
    this.uncertainty = Number.NaN;
    this.members = 0;
    this.method = Number.NaN;
    this.following = false;
    this.contradiction = false;
    this.drumHits = 0;
    this.usable = 0;
    this.lowEndA = false;
    this.lowEndB = false;
    this.moved = false;
    this.hidden = false;
    this.inAnswer.fill(0);
  }
}
