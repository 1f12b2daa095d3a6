/**
 * The answer from the witnesses: first arrivals of the hits and of their average, the best fit of all attacks, the single
 * hits' correlation. Where two that are sure contradict each other there is none; where noise could hide the first push in
 * the single hits, their average or a second witness is asked.
 * This is what the reading shows; it changes only in `decide`.
 */

import { FATE, METHOD } from '../../reading/codes';
import { POOL_HITS } from '../../reading/limits';
import type { HitStore } from '../hit/hitStore';
import { TUNING, type Tuning } from '../tuning';
import type { DecisionTuning } from '../tuning/decisionTuning';
import type { AttackFit } from './attackFit';
import type { Known } from './likely/known';
import type { Likelihood } from './likely/likelihood';
import type { Pool } from './pool';
import type { Stack } from './stack';
import { Told } from './told';
import { type FitPlace, isUnlike, likelyUncertainty, pushesBent, uncertaintyOf } from './uncertainty';
import type { Witness } from './witness';

export class Decision extends Told {
  private readonly inBoth = new Uint8Array(POOL_HITS);
  private readonly witnessSamples: number;
  private readonly lowUncertainty: number;
  private readonly lowSpread: number;
  private readonly stackNear: number;
  private readonly hitsNeeded: number;
  private readonly usableQuality: number;
  private readonly rules: DecisionTuning;

  constructor(
    private readonly sampleRate: number,
    private readonly tuning: Tuning = TUNING,
  ) {
    super();
    const { delay, hit } = tuning;
    this.rules = delay.decision;
    this.hitsNeeded = delay.hitsNeeded;
    this.usableQuality = hit.arrival.usableQuality;
    this.witnessSamples = this.rules.witnessSeconds * sampleRate;
    this.lowUncertainty = this.rules.low.uncertaintySeconds * sampleRate;
    this.lowSpread = this.rules.low.spreadSeconds * sampleRate;
    this.stackNear = this.rules.stack.nearSeconds * sampleRate;
  }

  /** Real-time safe: yes. @param final sets the fates of the hits in the store */
  decide(store: HitStore, pool: Pool, fit: AttackFit, stack: Stack, final = true): void {
    const { parts, delay } = this.tuning;
    this.copy(pool, fit);
    const p = pool.picks;
    const w = pool.waves;
    const fitSure = this.fitSure(store, pool, fit);
    this.fit.sure = fitSure;
    const stacked = this.stackSure(store, pool, fit, stack, fitSure);
    const clean = p.sure && (stacked || !pool.hidden);
    // clean first pushes are the landmark; the best fit may lie on a later swing, but not with the other sign
    const pickFit =
      !p.sure || !fitSure || (clean ? p.sign === fit.sign : this.agree(p.delay, p.sign, fit.delay, fit.sign));
    const pickWave = !p.sure || !w.sure || this.agree(p.delay, p.sign, w.delay, w.sign);
    this.contradiction = parts.contradictions && !(pickFit && pickWave);
    // where noise may hide a first push, a second witness has to be near
    const backed = w.sure || (fit.sign !== 0 && this.agree(p.delay, p.sign, fit.delay, fit.sign));
    this.delay = Number.NaN;
    this.sign = 0;
    this.spread = Number.NaN;
    this.method = Number.NaN;
    this.uncertainty = Number.NaN;
    this.members = p.members;
    this.inAnswer.set(pool.inPick);
    this.disputed = false;
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
      } else if (this.waveSure(pool, fit)) {
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
    if (this.agreement < this.rules.leastAgreement) this.sign = 0;
    const first = this.method === METHOD['first-arrival'];
    if (parts.bentPushes && first && pushesBent(this.sampleRate, store, pool, fit, this.delay, delay.uncertainty)) {
      this.contradiction = true;
      this.sign = 0;
    }
    this.noiseMove = stacked ? Math.hypot(stack.noiseMove, stack.delay - this.delay) : 0;
    if (this.sign !== 0)
      this.uncertainty = uncertaintyOf(this.sampleRate, store, pool, fit, this, this.noiseMove, delay.uncertainty);
    // tops or low ends so unlike that a push alone proves nothing: the best fit has to lie near, with the same sign
    const unknown = this.sign !== 0 && Number.isNaN(this.uncertainty);
    if (parts.unlikeChannels && unknown && isUnlike(store, pool, delay.uncertainty)) {
      this.contradiction = true;
      this.sign = 0;
    }
    // the low end rises slowly: it answers only where the whole attack says nearly the same
    if (this.method === METHOD['low-band'] && !(this.uncertainty <= this.lowUncertainty)) this.sign = 0;
    if (final) this.setFates(store, pool);
  }

  /** The witnesses leave it open, and there is something to weigh. Real-time safe: yes. */
  open(pool: Pool): boolean {
    const { lowEndA, lowEndB, moved, following, sign } = this;
    return sign === 0 && !following && !moved && !lowEndA && !lowEndB && pool.drumHits >= this.tuning.delay.likely.hits;
  }

  /** What is likely enough is the answer. Real-time safe: yes. @param asked the drum that is asked for, among several that are played */
  weigh(store: HitStore, pool: Pool, likely: Likelihood, asked = false, final = true): void {
    const { likely: rules } = this.tuning.delay;
    const stands =
      this.likelySign === likely.sign &&
      Math.abs(likely.delay - this.likelyDelay) <= rules.nearSeconds * this.sampleRate;
    const least = asked ? rules.leastOfAsked : rules.least;
    const stays = asked ? rules.staysOfAsked : rules.stays;
    const enough = likely.members >= rules.leastHits && likely.probability >= (stands ? stays : least);
    const most = stands ? rules.changedWhileStanding : rules.changed;
    if (likely.sign === 0 || !enough || likely.change >= most || this.deepElsewhere(pool, likely.delay, likely.sign)) {
      this.likelySign = 0;
      return;
    }
    this.likelySign = likely.sign;
    this.likelyDelay = likely.delay;
    this.disputed = this.contradiction;
    this.contradiction = false;
    this.take(METHOD.likeliest, likely.delay, likely.sign, likely.spread, likely.members);
    this.agreement = likely.members / pool.drumHits;
    this.noiseMove = 0;
    this.uncertainty = likelyUncertainty(this.sampleRate, likely, rules);
    this.show(store, pool, likely.shows, likely.shownAt);
    if (final) this.setFates(store, pool);
  }

  /** The low end of most hits begins far from there, or in close agreement not quite there: what was read is a cymbal's that comes with each stroke. */
  private deepElsewhere({ deep, drumHits }: Pool, delay: number, sign: number): boolean {
    const { apartSeconds, close } = this.tuning.delay.likely.deep;
    const apart = Math.abs(deep.delay - delay) / this.sampleRate;
    if (deep.sure && apart > apartSeconds) return true;
    const closely = deep.members >= close.hits && deep.members >= close.share * drumHits;
    if (!closely || !this.tuning.parts.deepPushes || deep.spread > close.spreadSeconds * this.sampleRate) return false;
    return deep.sign !== sign || apart > close.apartSeconds;
  }

  private copy(pool: Pool, fit: FitPlace): void {
    this.drumHits = pool.drumHits;
    this.usable = pool.picks.candidates;
    this.lowEndA = pool.lowEndA;
    this.lowEndB = pool.lowEndB;
    this.moved = pool.settling || (pool.oldUpTo > 0 && pool.drumHits < this.hitsNeeded);
    this.hidden = pool.hidden;
    this.fit.delay = fit.delay;
    this.fit.sign = fit.sign;
  }

  /** What stood still stands, by this witness: see Standing, which tells how accurate it is. Real-time safe: yes. */
  hold(store: HitStore, pool: Pool, method: number, witness: Witness, members: Uint8Array): void {
    this.take(method, witness.delay, witness.sign, witness.spread, witness.members);
    this.agreement = witness.members / pool.drumHits;
    this.noiseMove = 0;
    this.inAnswer.set(members);
    this.setFates(store, pool);
  }

  /** What was known before is what the newest hits show. Real-time safe: yes. */
  confirm(store: HitStore, pool: Pool, known: Known): void {
    this.disputed = this.contradiction;
    this.contradiction = false;
    this.take(METHOD.likeliest, known.shownDelay, known.sign, known.spread, known.members);
    this.agreement = known.members / pool.drumHits;
    this.noiseMove = 0;
    // NaN stays: what nobody knew then nobody knows now
    this.uncertainty = Math.max(known.uncertainty, this.tuning.delay.likely.placeSeconds * this.sampleRate);
    this.show(store, pool, known.shows, known.shownAt);
    this.setFates(store, pool);
  }

  /** What was known before is shown, and something else is likely. Real-time safe: yes. */
  contradict(): void {
    this.sign = 0;
    this.contradiction = true;
  }

  /** These hits are behind the answer, with these delays. */
  private show(store: HitStore, pool: Pool, shows: Uint8Array, at: Float64Array): void {
    this.inAnswer.set(shows);
    for (let i = 0; i < pool.drumHits; i++)
      store.likelyDelay[pool.drumSlots[i] as number] = shows[i] ? (at[i] as number) : Number.NaN;
  }

  /** The single hits' correlation says one thing, the attacks fit, and the low end doesn't begin elsewhere. */
  private waveSure(pool: Pool, fit: AttackFit): boolean {
    const w = pool.waves;
    return w.sure && this.agree(w.delay, w.sign, fit.delay, fit.sign) && !this.deepElsewhere(pool, w.delay, w.sign);
  }

  /** The low end's first pushes agree closely, the attacks fit, and most of what the whole signal shows goes the same way. */
  private lowSure(pool: Pool, fit: AttackFit): boolean {
    const { lows, picks } = pool;
    const close = lows.spread <= this.lowSpread && fit.agree >= this.rules.low.fitAgreement;
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
    const { farFactor, hits, moveSeconds, moveAloneSeconds } = this.rules.stack;
    const near = this.stackNear;
    if (pool.picks.sure) return pool.picks.sign === stack.sign && Math.abs(pool.picks.delay - stack.delay) <= near;
    const most = (fitNear ? moveSeconds : moveAloneSeconds) * this.sampleRate;
    if (stack.members < hits || stack.noiseMove > most) return false;
    let alike = 0;
    let other = 0;
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      // what noise hides in the single hit, the average may show
      if (Number.isNaN(store.pickDelay[s] as number) || store.pickHidden[s] || !pool.reaches(store, s)) continue;
      const same =
        store.pickSign[s] === stack.sign && Math.abs((store.pickDelay[s] as number) - stack.delay) <= farFactor * near;
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
      const same = store.pickSign[s] === stack.sign && off <= this.stackNear && pool.reaches(store, s);
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
    const { trust, share, snrDb, signs } = this.rules.fit;
    if (fit.sign === 0 || fit.members < this.hitsNeeded || fit.members < share * pool.drumHits) return false;
    if (!(pool.drumSnrDb >= snrDb) || fit.agree * (1 - fit.runnerUp) < trust) return false;
    let same = 0;
    for (let i = 0; i < pool.drumHits; i++) if (store.pickSign[pool.drumSlots[i] as number] === fit.sign) same++;
    return same > signs * pool.drumHits;
  }

  /** Each hit of the drum's: used, or why not. Real-time safe: yes. */
  setFates(store: HitStore, pool: Pool): void {
    if (pool.drumHits === 0) return;
    const drum = store.drum[pool.drumSlots[0] as number];
    const inRunning = pool.serialOf(store, pool.drumSlots[0] as number);
    for (let i = 0; i < store.kept; i++) {
      const s = store.at(i);
      if ((store.serial[s] as number) >= inRunning) break;
      if (store.hasArrival[s] && store.drum[s] === drum) store.fate[s] = FATE.old;
    }
    for (let i = 0; i < pool.drumHits; i++) {
      const s = pool.drumSlots[i] as number;
      if (this.inAnswer[i]) store.fate[s] = FATE.used;
      else if (Number.isNaN(store.pickDelay[s] as number) || (store.pickQuality[s] as number) < this.usableQuality)
        store.fate[s] = FATE['no-arrival'];
      else store.fate[s] = FATE.disagrees;
    }
  }
}
