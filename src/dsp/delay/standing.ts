/**
 * What a drum's answer keeps from one hit to the next, so that what is told doesn't come and go while nothing changed:
 * 1. an answer that stood stays while its own witness still says it in most of the hits, and none of the newest lies
 *    elsewhere; what may be a move, a switch that was pressed, or a contradiction ends it at once
 * 2. where even that is gone, in a groove, an answer that was known stays while the newest hits show it (Known)
 * 3. its accuracy is the worst that the last few hits gave, for the best fit may lie on this swing or that by turns
 */

import { METHOD } from '../../reading/codes';
import type { HitStore } from '../hit/hitStore';
import { TUNING, type Tuning } from '../tuning';
import type { Decision } from './decision';
import { Known } from './likely/known';
import type { Pool } from './pool';
import { apartOf, isUnlike, uncertaintyOf } from './uncertainty';

export class Standing {
  /** the answer that stood at the hit before: samples, sign and method; sign 0: none */
  private delay = Number.NaN;
  private sign = 0;
  private method = Number.NaN;
  /** distances of the answer and the best fit at the newest hits, samples; infinite: no accuracy was known */
  private readonly apart: Float64Array;
  private kept = 0;
  /** serial of the newest hit that has been counted */
  private newest = 0;
  /** a best fit as far off as the worst of them */
  private readonly worst = { delay: Number.NaN, sign: 0 };
  private readonly known: Known;
  private readonly withinSamples: number;
  private readonly spreadSamples: number;
  private readonly hitsNeeded: number;
  private readonly share: number;
  private readonly newestHits: number;

  constructor(
    private readonly sampleRate: number,
    private readonly tuning: Tuning = TUNING,
  ) {
    const { share, newestHits, accuracyHits } = tuning.delay.decision.standing;
    this.share = share;
    this.newestHits = newestHits;
    this.hitsNeeded = tuning.delay.hitsNeeded;
    this.spreadSamples = tuning.delay.pick.spreadSeconds * sampleRate;
    this.withinSamples = tuning.delay.mode.withinSeconds * sampleRate;
    this.apart = new Float64Array(accuracyHits);
    this.known = new Known(sampleRate, tuning);
  }

  /** Once for each decision of the drum: amends it. Real-time safe: yes. */
  amend(store: HitStore, pool: Pool, decision: Decision): void {
    if (decision.following || decision.moved) {
      this.clear();
      return;
    }
    // what stood by its own witness goes before what is only likely
    const likely = decision.method === METHOD.likeliest && decision.sign !== 0;
    const open = decision.sign === 0 || likely;
    if (open && this.sign !== 0 && !decision.contradiction && !decision.disputed && this.method !== METHOD.likeliest)
      this.hold(store, pool, decision);
    if (open) this.lookForKnown(store, pool, decision);
    if (decision.sign === 0) {
      this.lose();
      return;
    }
    // another answer has an accuracy of its own
    if (decision.sign !== this.sign || !this.isNear(decision.delay)) this.kept = 0;
    this.delay = decision.delay;
    this.sign = decision.sign;
    this.method = decision.method;
    if (decision.method === METHOD.likeliest) return;
    this.settle(store, pool, decision);
    if (!decision.lowEndA && !decision.lowEndB) this.known.keep(decision.delay, decision.sign, decision.uncertainty);
  }

  /** What was known is what the newest hits show: that is the answer; where another one is likely too, there is none. */
  private lookForKnown(store: HitStore, pool: Pool, decision: Decision): void {
    const { known } = this;
    if (!this.tuning.parts.likeliest || decision.lowEndA || decision.lowEndB) return;
    if (decision.sign !== 0 && (decision.method !== METHOD.likeliest || known.says(decision.delay, decision.sign)))
      return;
    if (!known.confirmed(store, pool)) return;
    if (decision.sign === 0) decision.confirm(store, pool, known);
    else decision.contradict();
  }

  private isNear(delay: number): boolean {
    return Math.abs(delay - this.delay) <= this.withinSamples;
  }

  /** The witness that gave the answer still gives it, if not by so many of its hits. */
  private hold(store: HitStore, pool: Pool, decision: Decision): void {
    const { method } = this;
    const waves = method === METHOD.waveform;
    const lows = method === METHOD['low-band'];
    const witness = waves ? pool.waves : lows ? pool.lows : pool.picks;
    const members = waves ? pool.inWave : lows ? pool.inLow : pool.inPick;
    const enough = Math.max(this.hitsNeeded, this.share * pool.drumHits);
    if (witness.sign !== this.sign || !this.isNear(witness.delay) || witness.members < enough) return;
    if (!(witness.spread <= this.spreadSamples) || this.mayHaveChanged(store, pool, members)) return;
    if (this.contradicted(store, pool, decision)) return;
    decision.hold(store, pool, method, witness, members);
  }

  /** Another witness is sure of something else, or the microphones are so unlike that a push needs one beside it. */
  private contradicted(store: HitStore, pool: Pool, { fit }: Decision): boolean {
    const { uncertainty, decision } = this.tuning.delay;
    const { waves } = pool;
    const apart = Math.abs(waves.delay - this.delay) > decision.witnessSeconds * this.sampleRate;
    if (waves.sure && (waves.sign !== this.sign || apart)) return true;
    return (fit.sure && fit.sign !== this.sign) || isUnlike(store, pool, uncertainty);
  }

  /** Of the newest hits that can be read one lies elsewhere, or all but one went the other way: a move, a switch. */
  private mayHaveChanged(store: HitStore, pool: Pool, members: Uint8Array): boolean {
    const { method, sign, newestHits } = this;
    const { witnesses } = pool;
    const waves = method === METHOD.waveform;
    const lows = method === METHOD['low-band'];
    const delays = waves ? store.waveDelay : lows ? store.lowDelay : store.pickDelay;
    const signs = waves ? store.waveSign : lows ? store.lowSign : store.pickSign;
    let read = 0;
    let turned = 0;
    for (let i = pool.drumHits - 1; i >= 0 && read < newestHits; i--) {
      const s = pool.drumSlots[i] as number;
      const readable = waves ? witnesses.clear(store, s) : lows ? witnesses.low(store, s) : witnesses.usable(store, s);
      if (!readable) continue;
      if (!members[i] && !this.isNear(delays[s] as number)) return true;
      if (signs[s] !== sign) turned++;
      read++;
    }
    return turned >= newestHits - 1;
  }

  /** The worst of the last few distances to the best fit goes into the uncertainty. */
  private settle(store: HitStore, pool: Pool, decision: Decision): void {
    const { apart, worst, sampleRate } = this;
    const { uncertainty } = this.tuning.delay;
    const newest = pool.serialOf(store, pool.drumSlots[pool.drumHits - 1] as number);
    // a hit counts once
    if (newest === this.newest && this.kept > 0) this.kept--;
    this.newest = newest;
    apart[this.kept++ % apart.length] = apartOf(sampleRate, decision.fit, decision, uncertainty);
    let most = 0;
    for (let i = 0; i < Math.min(this.kept, apart.length); i++) most = Math.max(most, apart[i] as number);
    worst.sign = decision.sign;
    worst.delay = decision.delay + most;
    decision.uncertainty = uncertaintyOf(sampleRate, store, pool, worst, decision, decision.noiseMove, uncertainty);
  }

  /** What is known beforehand, where nothing is known yet. Real-time safe: yes. @param delay samples; @param uncertainty samples */
  expect(delay: number, sign: number, uncertainty: number): void {
    if (this.known.sign === 0) this.known.keep(delay, sign, uncertainty);
  }

  /** A drum that begins, or something moved. Real-time safe: yes. */
  clear(): void {
    this.known.forget();
    this.lose();
  }

  private lose(): void {
    this.delay = Number.NaN;
    this.sign = 0;
    this.method = Number.NaN;
    this.kept = 0;
    this.newest = 0;
  }
}
