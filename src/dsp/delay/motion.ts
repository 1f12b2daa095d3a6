/**
 * Whether a microphone moves, from the drum's first arrivals in order: `steady`, `following` (they go on climbing or
 * falling) or `settling` (they jumped, and stay). Old hits are let go as soon as the newest two contradict them.
 */
import { POOL_HITS } from '../../reading/limits';
import { MAD_TO_DEVIATION, median } from '../signal/median';
import { MOTION, type MotionTuning } from '../tuning/motionTuning';
import { Line } from './line';

export const STEADY = 0;
export const FOLLOWING = 1;
export const SETTLING = 2;

export class Motion {
  mode = STEADY;
  /** fill with `add`, oldest first */
  count = 0;
  /** newest of the added hits that still count; all of them when steady */
  keep = 0;
  /** where a moving microphone is as of the newest hit, samples */
  end = Number.NaN;
  /** the drop was a false alarm: the hits before it count again */
  undo = false;
  private readonly at = new Float64Array(POOL_HITS);
  private readonly value = new Float64Array(POOL_HITS);
  private readonly sign = new Float64Array(POOL_HITS);
  private readonly sorted = new Float64Array(POOL_HITS);
  private readonly line: Line;
  /** of the steady time before: middle, sign and deviation */
  private base = Number.NaN;
  private baseSign = 0;
  /** most of its hits say one thing */
  private baseAgrees = false;
  /** the move began as a slow drift */
  private drifting = false;
  private scatter = Number.NaN;
  private readonly away: number;
  private readonly climb: number;
  private readonly drift: number;
  private readonly leastScatter: number;
  private readonly baseWithin: number;
  /** by how many hits turned, from two on */
  private readonly turnScatter: readonly number[];

  constructor(
    sampleRate: number,
    private readonly tuning: MotionTuning = MOTION,
  ) {
    this.away = tuning.awaySeconds * sampleRate;
    this.climb = tuning.climbSeconds * sampleRate;
    this.drift = tuning.driftSeconds * sampleRate;
    this.leastScatter = tuning.leastScatterSeconds * sampleRate;
    this.baseWithin = tuning.baseWithinSeconds * sampleRate;
    this.turnScatter = tuning.turnScatterSeconds.map((seconds) => seconds * sampleRate);
    this.line = new Line(POOL_HITS, this.leastScatter);
  }

  /** Before the hits are added anew. Real-time safe: yes. */
  clear(): void {
    this.count = 0;
  }

  /** Forget all of it. Real-time safe: yes. */
  reset(): void {
    this.count = 0;
    this.mode = STEADY;
    this.base = Number.NaN;
    this.end = Number.NaN;
    this.undo = false;
  }

  /** The next usable first arrival. Real-time safe: yes. */
  add(seconds: number, delay: number, sign: number): void {
    this.at[this.count] = seconds;
    this.value[this.count] = delay;
    this.sign[this.count] = sign;
    this.count++;
  }

  /** Once for each new hit of the drum. Real-time safe: yes. */
  judge(): void {
    this.undo = false;
    if (this.mode !== FOLLOWING) this.drifting = false;
    this.keep = this.count;
    this.end = Number.NaN;
    if (this.mode === STEADY) this.judgeSteady();
    else this.judgeMoving();
    if (this.mode !== FOLLOWING) return;
    this.layLine(Math.min(this.keep, this.tuning.followedHits));
    this.end = this.line.end;
    // where it has come to rest the line runs on: never far from the newest hit
    const slack = Math.max(this.climb, this.tuning.climbScatters * this.scatter);
    const newest = this.value[this.count - 1] as number;
    this.end = Math.max(newest - slack, Math.min(newest + slack, this.end));
  }

  private judgeSteady(): void {
    const n = this.count;
    const { awayScatters, baseHits, baseNewestHits, driftHits, driftLeastHits, followedHits } = this.tuning;
    for (let k = 0; k < awayScatters.length && n >= baseHits + k + 2; k++) {
      const newest = k + 2;
      this.setBase(Math.max(0, n - newest - baseNewestHits), n - newest);
      if (!this.allAway(newest, awayScatters[k] as number) || !this.proves(newest)) continue;
      // with the other sign both are infinite, and their difference is no number
      const climb = this.from(n - 1) - this.from(n - newest);
      this.keep = newest;
      this.mode = this.climbs(Math.abs(climb)) && climb > 0 === this.from(n - 1) > 0 ? FOLLOWING : SETTLING;
      return;
    }
    if (n >= driftLeastHits && this.drifts(Math.min(n, driftHits))) {
      this.setBase(Math.max(0, n - driftHits), n);
      this.scatter = this.line.residual;
      this.mode = FOLLOWING;
      this.drifting = true;
      this.keep = Math.min(n, followedHits);
    }
  }

  private judgeMoving(): void {
    const n = this.count;
    const { agreeingHits, followedHits, restingScatters } = this.tuning;
    if (n < 2) return;
    const last = this.value[n - 1] as number;
    const before = this.value[n - 2] as number;
    // back where it was: two bad hits, not a move
    if (!this.drifting && n === 3 && !this.isAway(this.from(n - 1)) && !this.turned(n - 1)) {
      this.mode = STEADY;
      this.undo = true;
      return;
    }
    if (this.mode === SETTLING && n >= 3) {
      const first = this.value[n - 3] as number;
      const on = this.climbs(Math.abs(last - before)) && this.climbs(Math.abs(before - first));
      if (on && last > before === before > first) this.mode = FOLLOWING;
    }
    if (this.drifting && this.offTheLine(Math.min(n - 1, followedHits), this.scatter)) {
      // a few hits climbed by chance: no move
      this.mode = STEADY;
      this.undo = true;
      return;
    }
    if (this.agrees()) {
      this.mode = STEADY;
      this.keep = agreeingHits;
      return;
    }
    if (n > followedHits) {
      this.keep = followedHits + 1;
      // wider scatter than before, and nowhere to go
      this.layLine(this.keep);
      const { climb, residual } = this.line;
      if (Math.abs(climb) < Math.max(this.climb, restingScatters * residual)) this.mode = STEADY;
    }
  }

  /** The newest hit lies far from where the line through the `before` hits before it leads. */
  private offTheLine(before: number, scatter: number): boolean {
    const { at, value, count: n, line } = this;
    line.lay(at, value, n - 1 - before, n - 1);
    const seconds = (at[n - 1] as number) - (at[n - 2] as number);
    return this.isAway((value[n - 1] as number) - line.end - line.slope * seconds, scatter);
  }

  /** The newest few say the same. */
  private agrees(): boolean {
    const { sorted, value, count: n } = this;
    const { agreeingHits, agreeingScatters } = this.tuning;
    if (n < agreeingHits) return false;
    const from = n - agreeingHits;
    for (let i = from; i < n; i++) {
      if (this.sign[i] !== this.sign[n - 1]) return false;
      sorted[i - from] = value[i] as number;
    }
    const centre = median(sorted, agreeingHits);
    const within = Math.max(this.away, agreeingScatters * this.scatter);
    for (let i = from; i < n; i++) if (Math.abs((value[i] as number) - centre) > within) return false;
    // agreeing and still climbing, one way all along, is a slow move
    this.layLine(agreeingHits);
    return !(this.line.share === 1 && this.climbs(Math.abs(this.line.climb)));
  }

  private climbs(samples: number): boolean {
    return samples > Math.max(this.climb, this.tuning.climbScatters * this.scatter);
  }

  private isAway(d: number, scatter = this.scatter): boolean {
    return Math.abs(d) > Math.max(this.away, (this.tuning.awayScatters[0] as number) * scatter);
  }

  private allAway(newest: number, scatters: number): boolean {
    const n = this.count;
    const { wideBaseHits, fewBaseFactor } = this.tuning;
    const few = newest === 2 && n - newest < wideBaseHits;
    const limit = Math.max(this.away, (few ? fewBaseFactor : 1) * scatters * this.scatter);
    for (let i = n - newest; i < n; i++) {
      if (this.sign[i] !== this.sign[n - 1] || !(Math.abs(this.from(i)) > limit)) return false;
      if (this.from(i) > 0 !== this.from(n - 1) > 0) return false;
    }
    return true;
  }

  /**
   * The newest few, all away from the base, are a move. Fewer than the most are none where the base itself says several
   * things; a turn of polarity needs the more of them the wider the base scatters; and two have to say one thing, or go on.
   */
  private proves(newest: number): boolean {
    const n = this.count;
    const most = this.tuning.awayScatters.length + 1;
    if (newest >= most) return true;
    if (!this.baseAgrees) return false;
    if (this.turned(n - 1)) return this.scatter <= (this.turnScatter[newest - 2] as number);
    const step = this.from(n - 1) - this.from(n - 2);
    return newest > 2 || !this.isAway(step) || step > 0 === this.from(n - 1) > 0;
  }

  private turned(i: number): boolean {
    return this.sign[i] !== this.baseSign;
  }

  /** How far hit i lies from the base; the other sign counts as far away. */
  private from(i: number): number {
    return this.turned(i) ? Number.POSITIVE_INFINITY : (this.value[i] as number) - this.base;
  }

  private setBase(from: number, to: number): void {
    const { sorted, value } = this;
    const { baseHits, secondLargestDeviations } = this.tuning;
    let up = 0;
    for (let i = from; i < to; i++) if ((this.sign[i] as number) > 0) up++;
    this.baseSign = 2 * up >= to - from ? 1 : -1;
    let n = 0;
    for (let i = from; i < to; i++) if (this.sign[i] === this.baseSign) sorted[n++] = value[i] as number;
    this.base = median(sorted, n);
    n = 0;
    for (let i = from; i < to; i++)
      if (this.sign[i] === this.baseSign) sorted[n++] = Math.abs((value[i] as number) - this.base);
    const middle = median(sorted, n);
    // sorted by now: the second largest of eight lies at one and a half deviations
    const wide = n >= Math.max(2, baseHits) ? (sorted[n - 2] as number) / secondLargestDeviations : 0;
    this.scatter = Math.max(this.leastScatter, MAD_TO_DEVIATION * middle, wide);
    let agreeing = 0;
    for (let i = 0; i < n; i++) if ((sorted[i] as number) <= this.baseWithin) agreeing++;
    this.baseAgrees = agreeing >= baseHits && agreeing >= this.tuning.baseShare * (to - from);
  }

  private layLine(newest: number): void {
    this.line.lay(this.at, this.value, this.count - newest, this.count);
  }

  private drifts(n: number): boolean {
    const { count, line } = this;
    for (let i = count - n; i < count; i++) if (this.sign[i] !== this.sign[count - 1]) return false;
    const { driftLeastHits, driftScatters, driftShare, driftBeforeShare, fewHitsFactor } = this.tuning;
    const least = n > driftLeastHits ? this.drift : fewHitsFactor * this.drift;
    this.layLine(n);
    const { climb, residual } = line;
    if (!(Math.abs(climb) > Math.max(least, driftScatters * residual) && line.share >= driftShare)) return false;
    // one hit alone is no drift: without it the line climbs already, and it lies where that leads
    const off = this.offTheLine(n - 1, residual);
    const climbed = line.climb * Math.sign(climb) > driftBeforeShare * least;
    this.layLine(n);
    return climbed && !off;
  }
}
