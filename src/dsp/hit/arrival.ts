/** The first arrival of a hit in one channel: where its first push begins, and which way it goes. */
import { firstHalfWave, foot, HalfWave } from '../signal/foot';
import type { Ring } from '../signal/ring';

const PEAK_AFTER_SECONDS = 0.015;
const NOISE_SECONDS = 0.015;
const SHARE_OF_PEAK = 0.04;
const NOISE_FACTOR = 3;
const FLOOR = 1e-4;
const HALF_WAVE_SECONDS = 0.00009;
export const FOOT_SHARE = 0.1;
const FOOT_NOISE_FACTOR = 1.5;
const CLEAN_FROM_SECONDS = 0.002;
const CLEAN_TO_SECONDS = 0.00015;
/** an arrival counts from this quality on */
export const USABLE_QUALITY = 8;

/** A result that is filled in, never made anew. */
export class Arrival extends HalfWave {
  found = false;
  /** absolute frame number, fractional: the foot (10 %) of the first half-wave */
  frame = 0;
  /** first half-wave over the largest value before it: usable from 8, full weight from 16 */
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

  constructor(sampleRate: number) {
    this.leastFrames = Math.max(2, Math.round(HALF_WAVE_SECONDS * sampleRate));
    this.cleanFrom = Math.round(CLEAN_FROM_SECONDS * sampleRate);
    this.cleanTo = Math.round(CLEAN_TO_SECONDS * sampleRate);
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
    out.frame = foot(x, from, out.summitAt, out.sign, Math.max(FOOT_SHARE * out.summit, footFloor));
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
  constructor(sampleRate: number, maxLagMs: number) {
    this.reach = Math.round((maxLagMs / 1000) * sampleRate);
    this.peakAfter = Math.round(PEAK_AFTER_SECONDS * sampleRate);
    this.noiseFrames = Math.round(NOISE_SECONDS * sampleRate);
    this.rule = new PushRule(sampleRate);
    this.lookAheadFrames = this.reach + this.peakAfter;
    this.x = new Float64Array(this.rule.cleanFrom + 2 * this.reach + this.peakAfter);
  }

  /** Pick the first arrival round `trigger` from a high-passed channel. Real-time safe: yes. */
  pick(x: Ring, trigger: number, out: Arrival): void {
    out.found = false;
    out.quality = 0;
    const from = trigger - this.reach;
    const to = trigger + this.reach;
    let peak = 0;
    for (let n = from; n < to + this.peakAfter; n++) peak = Math.max(peak, Math.abs(x.at(n)));
    let noise = 0;
    for (let n = from - this.noiseFrames; n < from; n++) noise = Math.max(noise, Math.abs(x.at(n)));
    out.peak = peak;
    out.noise = noise;
    const threshold = Math.max(SHARE_OF_PEAK * peak, NOISE_FACTOR * noise);
    out.noiseBound = NOISE_FACTOR * noise > SHARE_OF_PEAK * peak;
    if (peak < FLOOR || threshold > 0.5 * peak) return;

    const at0 = this.rule.cleanFrom;
    x.copy(from - at0, this.x, this.x.length);
    const last = at0 + to - from;
    const end = last + this.peakAfter;
    if (!this.rule.find(this.x, at0, last, end, threshold, FOOT_NOISE_FACTOR * noise, noise * 1e-3, out)) return;
    out.frame += from - at0;
    out.found = true;
  }
}
