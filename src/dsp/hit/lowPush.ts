/**
 * The first push in a drum's low end: what a hi-hat or a cymbal at the same time doesn't cover. A low-pass shifts and
 * rounds it in both channels alike, so that the difference of the two stays (to some cm: the rise is slow).
 */
import { Biquad } from '../signal/filters';
import { firstHalfWave, foot, HalfWave, riseOver } from '../signal/foot';
import { peakOf } from '../signal/peak';
import type { Ring } from '../signal/ring';
import { HIT, type LowPushTuning } from '../tuning/hitTuning';

export class LowPush extends HalfWave {
  found = false;
  /** absolute frame number, fractional: half-way up the first half-wave */
  frame = 0;
  /** nothing high came before its summit */
  alone = false;
  /** the top begins the hit, or is all there is of it */
  highLed = false;
  /** no softer push came before it */
  first = false;
  peak = 0;
}

export class LowPushPicker {
  private readonly filter: Biquad;
  private readonly x: Float64Array;
  private readonly before: number;
  private readonly reach: number;
  private readonly after: number;
  private readonly high: number;
  private readonly earlier: number;

  /** @param maxLagMs pushes lie within ± this of the trigger */
  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly tuning: LowPushTuning = HIT.lowPush,
  ) {
    this.filter = new Biquad('lowpass', sampleRate, tuning.cornerHz);
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.reach = Math.round((maxLagMs / 1000) * sampleRate);
    this.after = Math.round(tuning.afterSeconds * sampleRate);
    this.high = Math.round(tuning.highSeconds * sampleRate);
    this.earlier = tuning.earlierSeconds * sampleRate;
    this.x = new Float64Array(this.before + 2 * this.reach + this.after);
  }

  /**
   * Real-time safe: yes.
   * @param pick the channel, high-passed at 100 Hz; `attack`: its top
   * @param onset where the whole signal begins; NaN where that isn't known
   */
  pick(pick: Ring, attack: Ring, trigger: number, onset: number, out: LowPush): void {
    const { x, before, reach, tuning } = this;
    const from = trigger - reach - before;
    out.found = false;
    out.alone = false;
    out.first = false;
    out.highLed = false;
    pick.copy(from, x, x.length);
    this.filter.clear();
    this.filter.run(x, x, x.length);
    // the filter's own beginning is left out
    const noise = peakOf(x, before >> 1, before);
    const peak = peakOf(x, before, x.length);
    out.peak = peak;
    const threshold = Math.max(tuning.shareOfPeak * peak, tuning.noiseFactor * noise);
    if (!(peak > 0)) return;
    const to = before + 2 * reach;
    if (threshold > tuning.mostThreshold * peak || !firstHalfWave(x, before, to, x.length, threshold, 0, out)) {
      out.highLed = attack.peak(from + before, from + x.length) > peak;
      return;
    }
    const { sign, summit, summitAt } = out;
    const level = tuning.level * summit;
    out.found = true;
    out.frame = from + foot(x, 1, summitAt, sign, level);
    const high = attack.peak(from + riseOver(x, 1, summitAt, sign, level) - this.high, from + summitAt + 1);
    out.alone = high < tuning.alone * summit;
    out.highLed = !out.alone;
    out.first = !(out.frame - onset > this.earlier);
  }
}
