/**
 * First arrivals under noise: the hits of one drum are laid on each other and averaged, so that noise falls with the
 * square root of their number, and the first push is picked in the average.
 * 1. hits are laid on each other, the loudest first (HitAverage)
 * 2. the picks' rules on the average, with the noise that the average itself has before the hit
 * 3. no answer unless noise leaves no room for a hidden first push, and the halves of the hits, parted in three ways, say
 *    the same. Agreement alone would be no proof: a push that noise hides is hidden in all hits.
 * Spread over steps: `begin`, then `work` until it returns true.
 */

import { Arrival, PushRule } from '../hit/arrival';
import type { HitWaves } from '../hit/hitWaves';
import { foot } from '../signal/foot';
import { DEVIATION_TO_MAD } from '../signal/median';
import { peakOf } from '../signal/peak';
import { TUNING, type Tuning } from '../tuning';
import type { StackTuning } from '../tuning/estimateTuning';
import { ALL_GROUPS, HitAverage } from './hitAverage';

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
  riseDifference = Number.NaN;
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
  private squares = Number.NaN;
  private agree = false;
  private readonly noiseFrom: number;
  private readonly pickFrom: number;
  private readonly pickTo: number;
  private readonly halvesWithin: number;
  private readonly mostMove: number;
  private readonly tuning: StackTuning;
  private readonly hitsNeeded: number;

  constructor(sampleRate: number, waves: HitWaves, { delay, hit }: Pick<Tuning, 'delay' | 'hit'> = TUNING) {
    const tuning = delay.stack;
    this.tuning = tuning;
    this.hitsNeeded = delay.hitsNeeded;
    const frames = (seconds: number): number => Math.round(seconds * sampleRate);
    this.average = new HitAverage(sampleRate, waves, delay.average);
    this.inStack = this.average.has;
    this.rule = new PushRule(sampleRate, hit.arrival.push);
    this.sum = new Float64Array(waves.length);
    this.noiseFrom = frames(tuning.noiseFromSeconds);
    this.pickFrom = frames(tuning.pickFromSeconds);
    this.pickTo = waves.length - frames(tuning.tailSeconds);
    this.halvesWithin = frames(tuning.halvesSeconds);
    this.mostMove = frames(tuning.moveSeconds);
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
      return this.laid && this.members < this.hitsNeeded;
    }
    return this.half < 0 ? this.pickWhole() : this.pickHalf();
  }

  /** The picks in the whole average. @returns true when done: there are none */
  private pickWhole(): boolean {
    const { a, b } = this;
    if (this.members < this.hitsNeeded) return true;
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
    if (!this.agree || !this.isClear(a) || !this.isClear(b) || this.noiseMove > this.mostMove) return true;
    this.spread = DEVIATION_TO_MAD * Math.sqrt((this.squares / HALVES) * this.members);
    this.delay = delay;
    this.sign = sign;
    this.bound = a.noiseBound || b.noiseBound;
    return true;
  }

  private pick(channel: 'a' | 'b', mask: number, out: Arrival): boolean {
    const { sum, pickFrom } = this;
    const { shareOfPeak, noiseFactor, footNoiseFactor } = this.tuning;
    this.average.write(channel, mask, sum);
    const noise = peakOf(sum, this.noiseFrom, pickFrom);
    const peak = peakOf(sum, pickFrom, sum.length);
    out.noise = noise;
    out.peak = peak;
    out.noiseBound = noiseFactor * noise > shareOfPeak * peak;
    const threshold = Math.max(shareOfPeak * peak, noiseFactor * noise);
    const footFloor = footNoiseFactor * noise;
    out.found = peak > 0 && this.rule.find(sum, pickFrom, this.pickTo, sum.length, threshold, footFloor, 0, out);
    return out.found;
  }

  /** How far the pick moves when the noise adds to the foot or takes from it. */
  private move(channel: 'a' | 'b', x: Arrival): number {
    this.average.write(channel, ALL_GROUPS, this.sum);
    const { footNoiseFactor, moveNoiseShare, moveMostShare } = this.tuning;
    const level = Math.max(this.rule.footShare * x.summit, footNoiseFactor * x.noise);
    const up = Math.min(moveMostShare * x.summit, level + moveNoiseShare * x.noise);
    return foot(this.sum, 0, x.summitAt, x.sign, up) - x.frame;
  }

  /** Noise leaves no room for an earlier push, and nothing comes before this one. */
  private isClear(x: Arrival): boolean {
    const t = this.tuning;
    const before = x.summit / x.quality;
    const bound = t.noiseFactor * x.noise > t.boundShareOfPeak * x.peak;
    const factor = x.noiseBound ? t.boundClearFactor : t.clearFactor;
    return !bound && x.summit >= factor * x.noise && (x.quality >= t.cleanQuality || before <= t.asNoise * x.noise);
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
