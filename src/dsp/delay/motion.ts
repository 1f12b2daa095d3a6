/**
 * Whether a microphone moves, from the drum's first arrivals in order: `steady`, `following` (they go on climbing or
 * falling) or `settling` (they jumped, and stay). Old hits are let go as soon as the newest two contradict them.
 */
import { POOL_HITS } from '../../reading/limits';
import { MAD_TO_DEVIATION, median } from '../signal/median';
import { MOTION, type MotionTuning } from '../tuning/motionTuning';

/** of a normal distribution: its standard deviation from a median absolute deviation */

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
  /** samples a second */
  slope = 0;
  /** the drop was a false alarm: the hits before it count again */
  undo = false;
  private readonly at = new Float64Array(POOL_HITS);
  private readonly value = new Float64Array(POOL_HITS);
  private readonly sign = new Float64Array(POOL_HITS);
  private readonly sorted = new Float64Array((POOL_HITS * (POOL_HITS - 1)) / 2);
  /** of the steady time before: middle, sign and deviation */
  private base = Number.NaN;
  private baseSign = 0;
  /** the move began as a slow drift */
  private drifting = false;
  private scatter = 0;
  private readonly away: number;
  private readonly climb: number;
  private readonly drift: number;
  private readonly leastScatter: number;

  constructor(
    sampleRate: number,
    private readonly tuning: MotionTuning = MOTION,
  ) {
    this.away = tuning.awaySeconds * sampleRate;
    this.climb = tuning.climbSeconds * sampleRate;
    this.drift = tuning.driftSeconds * sampleRate;
    this.leastScatter = tuning.leastScatterSeconds * sampleRate;
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
      if (!this.allAway(newest, awayScatters[k] as number)) continue;
      // with the other sign both are infinite, and their difference is no number
      const climb = this.from(n - 1) - this.from(n - newest);
      this.keep = newest;
      this.mode = this.climbs(Math.abs(climb)) && climb > 0 === this.from(n - 1) > 0 ? FOLLOWING : SETTLING;
      return;
    }
    if (n >= driftLeastHits && this.drifts(Math.min(n, driftHits))) {
      this.setBase(Math.max(0, n - driftHits), n);
      this.scatter = this.residual;
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
    if (this.mode === SETTLING) {
      // back where it was: two bad hits, not a move
      if (!this.isAway(this.from(n - 1)) && !this.turned(n - 1) && n === 3) {
        this.mode = STEADY;
        this.undo = true;
        return;
      }
      if (n >= 3) {
        const first = this.value[n - 3] as number;
        if (
          this.climbs(Math.abs(last - before)) &&
          this.climbs(Math.abs(before - first)) &&
          last > before === before > first
        )
          this.mode = FOLLOWING;
      }
    }
    if (this.drifting && this.offTheLine(last)) {
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
      const climb = Math.abs(this.slope) * ((this.at[n - 1] as number) - (this.at[n - this.keep] as number));
      if (climb < Math.max(this.climb, restingScatters * this.residual)) this.mode = STEADY;
    }
  }

  /** The newest hit lies far from where the line through those before it leads. */
  private offTheLine(last: number): boolean {
    const n = this.count;
    this.count = n - 1;
    this.layLine(Math.min(n - 1, this.tuning.followedHits));
    const seconds = (this.at[n - 1] as number) - (this.at[n - 2] as number);
    this.count = n;
    return this.isAway(last - this.end - this.slope * seconds);
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
    const seconds = (this.at[n - 1] as number) - (this.at[from] as number);
    return !(this.share === 1 && this.climbs(Math.abs(this.slope) * seconds));
  }

  private climbs(samples: number): boolean {
    return samples > Math.max(this.climb, this.tuning.climbScatters * this.scatter);
  }

  private isAway(d: number): boolean {
    return Math.abs(d) > Math.max(this.away, (this.tuning.awayScatters[0] as number) * this.scatter);
  }

  private allAway(newest: number, scatters: number): boolean {
    const n = this.count;
    const limit = Math.max(this.away, scatters * this.scatter);
    for (let i = n - newest; i < n; i++) {
      if (this.sign[i] !== this.sign[n - 1] || !(Math.abs(this.from(i)) > limit)) return false;
      if (this.from(i) > 0 !== this.from(n - 1) > 0) return false;
    }
    return true;
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
  }

  /** of the line laid last: median distance from it as a deviation, and the share of pairs that go its way */
  private residual = 0;
  private share = 0;

  /** Theil–Sen line through the newest n: slope, end, residual, share. */
  private layLine(n: number): void {
    const { at, value, sorted } = this;
    const from = this.count - n;
    let pairs = 0;
    let up = 0;
    for (let i = from; i < this.count; i++)
      for (let j = i + 1; j < this.count; j++) {
        const slope = ((value[j] as number) - (value[i] as number)) / ((at[j] as number) - (at[i] as number));
        sorted[pairs++] = slope;
        if (slope > 0) up++;
      }
    this.slope = pairs > 0 ? median(sorted, pairs) : 0;
    this.share = pairs > 0 ? Math.max(up, pairs - up) / pairs : 0;
    for (let i = 0; i < n; i++) sorted[i] = (value[from + i] as number) - this.slope * (at[from + i] as number);
    const offset = median(sorted, n);
    for (let i = 0; i < n; i++)
      sorted[i] = Math.abs((value[from + i] as number) - this.slope * (at[from + i] as number) - offset);
    this.residual = Math.max(this.leastScatter, MAD_TO_DEVIATION * median(sorted, n));
    this.end = offset + this.slope * (at[this.count - 1] as number);
  }

  private drifts(n: number): boolean {
    for (let i = this.count - n; i < this.count; i++) if (this.sign[i] !== this.sign[this.count - 1]) return false;
    this.layLine(n);
    const climb = Math.abs(this.slope) * ((this.at[this.count - 1] as number) - (this.at[this.count - n] as number));
    const { driftLeastHits, driftScatters, driftShare, fewHitsFactor } = this.tuning;
    const least = n > driftLeastHits ? this.drift : fewHitsFactor * this.drift;
    const drifting = climb > Math.max(least, driftScatters * this.residual) && this.share >= driftShare;
    if (!drifting) this.end = Number.NaN;
    return drifting;
  }
}
