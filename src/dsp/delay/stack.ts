/**
 * First arrivals under noise: the hits of one drum are laid on each other and averaged, so that noise falls with the
 * square root of their number, and the first push is picked in the average.
 * 1. hits are laid on each other, the loudest first (HitAverage)
 * 2. the picks' rules on the average, with the noise that the average itself has before the hit
 * 3. no answer unless noise leaves no room for a hidden first push, and the halves of the hits, parted in three ways, say
 *    the same. Agreement alone would be no proof: a push that noise hides is hidden in all hits.
 * Spread over steps: `begin`, then `work` until it returns true.
 */

import { HITS_NEEDED } from '../../reading/limits';
import { Arrival, FOOT_SHARE, PushRule } from '../hit/arrival';
import type { HitWaves } from '../hit/hitWaves';
import { foot } from '../signal/foot';
import { peakOf } from '../signal/peak';
import { ALL_GROUPS, HitAverage } from './hitAverage';

const SHARE_OF_PEAK = 0.04;
/** the threshold over the largest noise of the average, and how far over it a push has to come out to count */
const NOISE_FACTOR = 2;
const CLEAR_FACTOR = 4;
/** a little more noise will do where the push stands far out of it, and another witness is asked */
const BOUND_SHARE_OF_PEAK = 0.052;
const BOUND_CLEAR_FACTOR = 10;
const FOOT_NOISE_FACTOR = 1;
/** what comes before the push is noise, or small against it */
const CLEAN_QUALITY = 8;
const AS_NOISE = 1.25;
/** noise of the average: from 2 ms of the waves on, until the first push may come */
const NOISE_FROM_SECONDS = 0.002;
const PICK_FROM_SECONDS = 0.01;
const TAIL_SECONDS = 0.006;
/** the halves' delays lie within this of the whole's */
const HALVES_SECONDS = 0.00015;
/** the noise may move a pick by no more */
const MOVE_SECONDS = 0.00012;
/** of a normal distribution's standard deviation: half of all lie within */
const QUARTILE = 0.6745;
const HALVES = 6;
/** which of the four groups (in order of time) each half takes: bit g stands for group g */
const HALF_MASKS = [0b0011, 0b1100, 0b0101, 0b1010, 0b1001, 0b0110];

export class Stack {
  /** the answer: B−A samples and product of signs; sign 0: none */
  delay = Number.NaN;
  sign = 0;
  /** half of the hits lie within this, as their halves scatter, samples */
  spread = Number.NaN;
  /** how far the noise left may move the delay, samples, 90 % */
  noiseMove = Number.NaN;
  /** the noise, not the drum, set a threshold: a soft first push may be hidden; another witness has to be near */
  bound = false;
  /** difference of the two channels' rises, B−A samples */
  riseDifference = 0;
  /** 1: the hit offered as i-th is in the average */
  readonly inStack: Uint8Array;

  /** the picks of the whole average */
  readonly a = new Arrival();
  readonly b = new Arrival();
  private readonly halfA = new Arrival();
  private readonly halfB = new Arrival();
  private readonly average: HitAverage;
  private readonly sum: Float64Array;
  private readonly rule: PushRule;
  private laid = false;
  private half = -1;
  private squares = 0;
  private agree = false;
  private readonly noiseFrom: number;
  private readonly pickFrom: number;
  private readonly pickTo: number;
  private readonly halvesWithin: number;
  private readonly mostMove: number;

  constructor(sampleRate: number, waves: HitWaves) {
    const frames = (seconds: number): number => Math.round(seconds * sampleRate);
    this.average = new HitAverage(sampleRate, waves);
    this.inStack = this.average.has;
    this.rule = new PushRule(sampleRate);
    this.sum = new Float64Array(waves.length);
    this.noiseFrom = frames(NOISE_FROM_SECONDS);
    this.pickFrom = frames(PICK_FROM_SECONDS);
    this.pickTo = waves.length - frames(TAIL_SECONDS);
    this.halvesWithin = frames(HALVES_SECONDS);
    this.mostMove = frames(MOVE_SECONDS);
  }

  /** hits in the average, and those that were offered */
  get members(): number {
    return this.average.members;
  }

  get offered(): number {
    return this.average.offered;
  }

  /** Offer n hits of one drum (slots, oldest first). Real-time safe: yes. */
  begin(slots: Int32Array, n: number): void {
    this.clear();
    this.average.begin(slots, n);
  }

  /** One unit of work: a hit to lay, or a pick. Real-time safe: yes. @returns true when there is nothing left to do */
  work(): boolean {
    if (!this.laid) {
      this.laid = this.average.lay();
      return this.laid && this.members < HITS_NEEDED;
    }
    return this.half < 0 ? this.pickWhole() : this.pickHalf();
  }

  /** The picks in the whole average. @returns true when done: there are none */
  private pickWhole(): boolean {
    const { a, b } = this;
    if (this.members < HITS_NEEDED) return true;
    if (!this.pick('a', ALL_GROUPS, a) || !this.pick('b', ALL_GROUPS, b)) return true;
    this.noiseMove = Math.hypot(this.move('a', a), this.move('b', b));
    this.riseDifference = b.riseFrames - a.riseFrames;
    this.agree = true;
    this.squares = 0;
    this.half = 0;
    return false;
  }

  /** The picks in the next half; after the last one the answer. @returns true when done */
  private pickHalf(): boolean {
    const { a, b } = this;
    const delay = b.frame - a.frame;
    const sign = a.sign * b.sign;
    const mask = HALF_MASKS[this.half] as number;
    const found = this.pick('a', mask, this.halfA) && this.pick('b', mask, this.halfB);
    const off = this.halfB.frame - this.halfA.frame - delay;
    if (!found || this.halfA.sign * this.halfB.sign !== sign || Math.abs(off) > this.halvesWithin) this.agree = false;
    this.squares += off * off;
    if (this.agree && ++this.half < HALVES) return false;
    if (!this.agree || !clear(a) || !clear(b) || this.noiseMove > this.mostMove) return true;
    this.spread = QUARTILE * Math.sqrt((this.squares / HALVES) * this.members);
    this.delay = delay;
    this.sign = sign;
    this.bound = a.noiseBound || b.noiseBound;
    return true;
  }

  private pick(channel: 'a' | 'b', mask: number, out: Arrival): boolean {
    const { sum, pickFrom } = this;
    this.average.write(channel, mask, sum);
    const noise = peakOf(sum, this.noiseFrom, pickFrom);
    const peak = peakOf(sum, pickFrom, sum.length);
    out.noise = noise;
    out.peak = peak;
    out.noiseBound = NOISE_FACTOR * noise > SHARE_OF_PEAK * peak;
    const threshold = Math.max(SHARE_OF_PEAK * peak, NOISE_FACTOR * noise);
    const footFloor = FOOT_NOISE_FACTOR * noise;
    out.found = peak > 0 && this.rule.find(sum, pickFrom, this.pickTo, sum.length, threshold, footFloor, 0, out);
    return out.found;
  }

  /** How far the pick moves when the noise adds to the foot or takes from it. */
  private move(channel: 'a' | 'b', x: Arrival): number {
    this.average.write(channel, ALL_GROUPS, this.sum);
    const level = Math.max(FOOT_SHARE * x.summit, FOOT_NOISE_FACTOR * x.noise);
    const up = Math.min(0.9 * x.summit, level + 0.6 * x.noise);
    return foot(this.sum, 0, x.summitAt, x.sign, up) - x.frame;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.average.clear();
    this.delay = Number.NaN;
    this.sign = 0;
    this.half = -1;
    this.laid = false;
    this.bound = false;
    this.spread = Number.NaN;
    this.noiseMove = Number.NaN;
    this.riseDifference = 0;
    this.a.found = false;
    this.b.found = false;
  }
}

/** Noise leaves no room for an earlier push, and nothing comes before this one. */
function clear(x: Arrival): boolean {
  const before = x.summit / x.quality;
  const bound = NOISE_FACTOR * x.noise > BOUND_SHARE_OF_PEAK * x.peak;
  const factor = x.noiseBound ? BOUND_CLEAR_FACTOR : CLEAR_FACTOR;
  return !bound && x.summit >= factor * x.noise && (x.quality >= CLEAN_QUALITY || before <= AS_NOISE * x.noise);
}
