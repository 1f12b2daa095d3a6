/**
 * The delay of one drum from its hits in the running: the best fit of their attacks, their average where noise hides the
 * first push, and the decision from all that is known. Spread over steps of at most one transform: `begin`, then `work`
 * until it returns true. One drum at a time; what a hit leaves behind is kept for all drums (`keep`).
 */
import type { HitReach } from '../hit/hitReach';
import type { HitStore } from '../hit/hitStore';
import type { Gcc } from '../signal/gcc';
import type { Ring } from '../signal/ring';
import { TUNING, type Tuning } from '../tuning';
import { AttackFit } from './attackFit';
import { Decision } from './decision';
import { Likelihood } from './likely/likelihood';
import type { Pool } from './pool';
import { Stack } from './stack';

const IDLE = 0;
/** what is to be done next: candidates from all attacks, the hits laid at each of them, the hits' average and the decision */
const CANDIDATES = 1;
const LAY = 2;
const AVERAGE = 3;
/** the witnesses leave it open: what is likely */
const WEIGH = 4;

export interface Attacks {
  /** tilted towards the attack */
  ringA: Ring;
  ringB: Ring;
  near: HitReach;
  /** null: there is only the near one */
  far: HitReach | null;
}

/** What speaks for all hits together, within one reach. */
class Together {
  readonly fit: AttackFit;
  readonly stack: Stack;

  constructor(sampleRate: number, reach: HitReach, { ringA, ringB }: Attacks, tuning: Tuning) {
    const { maxLagSamples, spectra, waves } = reach;
    this.fit = new AttackFit(sampleRate, maxLagSamples, spectra.size, ringA, ringB, tuning.delay.fit);
    this.stack = new Stack(sampleRate, waves, tuning);
  }
}

export class DelayEstimator {
  private readonly near: Together;
  private readonly far: Together | null;
  /** of the drum that is being worked on */
  private together: Together;
  /** attacks are fitted; else the fit has no answer */
  private readonly fitting: boolean;
  private readonly weighing: boolean;
  private readonly likelihood: Likelihood;
  /** what is decided by and by: what is told changes at once, when all is known */
  private readonly draft: Decision;
  private stage = IDLE;
  /** the drum that is being worked on, and the next of its hits to lay */
  private pool: Pool | null = null;
  private decision: Decision | null = null;
  private next = 0;
  private asked = false;

  constructor(
    sampleRate: number,
    private readonly store: HitStore,
    attacks: Attacks,
    tuning: Tuning = TUNING,
  ) {
    this.fitting = tuning.parts.attackFit;
    this.weighing = tuning.parts.likeliest;
    this.likelihood = new Likelihood(sampleRate, tuning);
    this.draft = new Decision(sampleRate, tuning);
    this.near = new Together(sampleRate, attacks.near, attacks, tuning);
    this.far = attacks.far && new Together(sampleRate, attacks.far, attacks, tuning);
    this.together = this.near;
  }

  /** A drum is being worked on. */
  get busy(): boolean {
    return this.stage !== IDLE;
  }

  /** Keep what is needed of a hit later on, as one reach has it: its attack and spectra, from the earlier arrival (frame) on. Real-time safe: yes. */
  keep(slot: number, spectra: Gcc, anchor: number, far: boolean): void {
    (far && this.far ? this.far : this.near).fit.keep(slot, spectra, anchor);
  }

  /** Work a drum's delay out, from a pool that has been evaluated. Real-time safe: yes. @param asked the drum that is asked for, among several that are played */
  begin(pool: Pool, decision: Decision, asked = false): void {
    this.asked = asked;
    this.pool = pool;
    this.decision = decision;
    this.together = pool.far && this.far ? this.far : this.near;
    this.stage = CANDIDATES;
  }

  /** One unit of work. Real-time safe: yes. @returns true when the drum's decision stands */
  work(): boolean {
    const { pool, decision } = this;
    const { fit, stack } = this.together;
    if (pool === null || decision === null) return true;
    if (this.stage === CANDIDATES) {
      fit.begin(pool.drumSlots, pool.drumHits, pool.picks.delay);
      this.next = 0;
      this.stage = LAY;
      return false;
    }
    if (this.stage === LAY) {
      if (this.fitting && this.next < pool.drumHits) {
        if (fit.hit(this.next, pool.drumSlots[this.next] as number)) this.next++;
        return false;
      }
      if (this.fitting) fit.finish();
      else fit.clear();
      if (pool.wantsStack) stack.begin(pool.drumSlots, pool.drumHits);
      else stack.clear();
      this.stage = AVERAGE;
      return false;
    }
    const { draft } = this;
    if (this.stage === AVERAGE) {
      if (!stack.work()) return false;
      draft.become(decision);
      draft.decide(this.store, pool, fit, stack, false);
      if (this.weighing && draft.open(pool)) {
        this.likelihood.begin();
        this.stage = WEIGH;
        return false;
      }
    } else {
      if (!this.likelihood.work(this.store, pool, fit, stack)) return false;
      draft.weigh(this.store, pool, this.likelihood, this.asked, false);
    }
    decision.become(draft);
    decision.setFates(this.store, pool);
    this.stage = IDLE;
    return true;
  }

  /** Average and decision once more, for the compiler's sake: see warmUp. Real-time safe: no. */
  rehearse(pool: Pool, decision: Decision): void {
    const { fit, stack } = pool.far && this.far ? this.far : this.near;
    if (this.fitting) fit.finish();
    stack.begin(pool.drumSlots, pool.drumHits);
    while (!stack.work());
    decision.decide(this.store, pool, fit, stack);
    this.likelihood.begin();
    while (!this.likelihood.work(this.store, pool, fit, stack));
    this.draft.become(decision);
    if (this.weighing && decision.open(pool)) decision.weigh(this.store, pool, this.likelihood);
  }

  /** Forget the drum that is under way. Real-time safe: yes. */
  clear(): void {
    this.near.fit.clear();
    this.far?.fit.clear();
    this.stage = IDLE;
  }
}
