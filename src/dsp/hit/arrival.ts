/** The first arrival of a hit in one channel: where its first push begins, and which way it goes. */
import { firstHalfWave, foot, HalfWave } from '../signal/foot';
import type { Ring } from '../signal/ring';
import { type ArrivalTuning, HIT, type PushTuning } from '../tuning/hitTuning';

/** A result that is filled in, never made anew. */
export class Arrival extends HalfWave {
  found = false;
  /** absolute frame number, fractional: the foot (10 %) of the first half-wave */
  frame = 0;
  /** first half-wave over the largest value before it */
  quality = 0;
  /** frames from the foot to the first half-wave's summit */
  riseFrames = 0;
  /** largest |x| round the hit, and in the noise before it */
  peak = 0;
  noise = 0;
  /** the noise, not the drum, set the threshold: a soft first push may be hidden */
  noiseBound = false;
}

/** What makes a half-wave a first push, at one sample rate. */
export class PushRule {
  /** a half-wave lasts at least so long, frames */
  readonly leastFrames: number;
  /** what comes in so many frames before the foot is set against the push */
  readonly cleanFrom: number;
  readonly cleanTo: number;
  /** share of its summit at which the foot lies */
  readonly footShare: number;

  constructor(sampleRate: number, tuning: PushTuning = HIT.arrival.push) {
    this.footShare = tuning.footShare;
    this.leastFrames = Math.max(2, Math.round(tuning.leastSeconds * sampleRate));
    this.cleanFrom = Math.round(tuning.cleanFromSeconds * sampleRate);
    this.cleanTo = Math.round(tuning.cleanToSeconds * sampleRate);
  }

  /**
   * The first push of x that rises over `threshold` in from…to−1: half-wave, foot, rise and quality go into `out`, whose
   * `frame` counts within x. Real-time safe: yes.
   * @param end x is looked at up to here
   * @param footFloor the foot isn't looked for below this
   * @param leastBefore what comes before the push counts as so much at least
   */
  find(
    x: Float64Array,
    from: number,
    to: number,
    end: number,
    threshold: number,
    footFloor: number,
    leastBefore: number,
    out: Arrival,
  ): boolean {
    if (!firstHalfWave(x, from, to, end, threshold, this.leastFrames, out)) return false;
    out.frame = foot(x, from, out.summitAt, out.sign, Math.max(this.footShare * out.summit, footFloor));
    out.riseFrames = out.summitAt - out.frame;
    const at = Math.round(out.frame);
    let before = leastBefore;
    for (let k = at - this.cleanFrom; k < at - this.cleanTo; k++) before = Math.max(before, Math.abs(x[k] as number));
    out.quality = out.summit / Math.max(before, 1e-9);
    return true;
  }
}

export class ArrivalPicker {
  private readonly reach: number;
  private readonly peakAfter: number;
  private readonly noiseFrames: number;
  private readonly rule: PushRule;
  /** the stretch looked at, from cleanFrom before the earliest arrival on */
  private readonly x: Float64Array;
  /** frames after the trigger which `pick` looks at */
  readonly lookAheadFrames: number;

  /** @param maxLagMs picks lie within ± this of the trigger */
  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly tuning: ArrivalTuning = HIT.arrival,
  ) {
    this.reach = Math.round((maxLagMs / 1000) * sampleRate);
    this.peakAfter = Math.round(tuning.peakAfterSeconds * sampleRate);
    this.noiseFrames = Math.round(tuning.noiseSeconds * sampleRate);
    this.rule = new PushRule(sampleRate, tuning.push);
    this.lookAheadFrames = this.reach + this.peakAfter;
    this.x = new Float64Array(this.rule.cleanFrom + 2 * this.reach + this.peakAfter);
  }

  /** Pick the first arrival round `trigger` from a high-passed channel. Real-time safe: yes. */
  pick(x: Ring, trigger: number, out: Arrival): void {
    const { shareOfPeak, noiseFactor, leastPeak, mostThreshold, footNoiseFactor } = this.tuning;
    out.found = false;
    out.quality = 0;
    const from = trigger - this.reach;
    const to = trigger + this.reach;
    const peak = x.peak(from, to + this.peakAfter);
    const noise = x.peak(from - this.noiseFrames, from);
    out.peak = peak;
    out.noise = noise;
    const threshold = Math.max(shareOfPeak * peak, noiseFactor * noise);
    out.noiseBound = noiseFactor * noise > shareOfPeak * peak;
    if (peak < leastPeak || threshold > mostThreshold * peak) return;

    const at0 = this.rule.cleanFrom;
    x.copy(from - at0, this.x, this.x.length);
    const last = at0 + to - from;
    const end = last + this.peakAfter;
    if (!this.rule.find(this.x, at0, last, end, threshold, footNoiseFactor * noise, noise * 1e-3, out)) return;
    out.frame += from - at0;
    out.found = true;
  }
}
