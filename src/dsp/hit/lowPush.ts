/**
 * The first push in a drum's low end: what a hi-hat or a cymbal at the same time doesn't cover. A low-pass shifts and
 * rounds it in both channels alike, so that the difference of the two stays (to some cm: the rise is slow).
 */
import { Biquad } from '../signal/filters';
import { firstHalfWave, foot, HalfWave, riseOver } from '../signal/foot';
import { peakOf } from '../signal/peak';
import type { Ring } from '../signal/ring';

const CORNER_HZ = 500;
const BEFORE_SECONDS = 0.015;
const AFTER_SECONDS = 0.015;
/** a first half-wave counts from this share of the peak, and from this many times the noise, on */
const SHARE_OF_PEAK = 0.12;
const NOISE_FACTOR = 3;
/** where the rise is timed: half-way up */
const LEVEL = 0.5;
/**
 * What lies above 2 kHz from 3 ms before the push to its summit, over the push: up to 1.3 where a drum was alone, from 4.6 where
 * a cymbal came first (real recordings of single hits)
 */
const HIGH_SECONDS = 0.003;
const ALONE = 2;
/** the whole signal begins this much sooner than the half-way point at most; else a softer push came before */
const EARLIER_SECONDS = 0.001;

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
  constructor(sampleRate: number, maxLagMs: number) {
    this.filter = new Biquad('lowpass', sampleRate, CORNER_HZ);
    this.before = Math.round(BEFORE_SECONDS * sampleRate);
    this.reach = Math.round((maxLagMs / 1000) * sampleRate);
    this.after = Math.round(AFTER_SECONDS * sampleRate);
    this.high = Math.round(HIGH_SECONDS * sampleRate);
    this.earlier = EARLIER_SECONDS * sampleRate;
    this.x = new Float64Array(this.before + 2 * this.reach + this.after);
  }

  /**
   * Real-time safe: yes.
   * @param pick the channel, high-passed at 100 Hz; `attack`: its top
   * @param onset where the whole signal begins; NaN where that isn't known
   */
  pick(pick: Ring, attack: Ring, trigger: number, onset: number, out: LowPush): void {
    const { x, before, reach } = this;
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
    const threshold = Math.max(SHARE_OF_PEAK * peak, NOISE_FACTOR * noise);
    if (!(peak > 0)) return;
    const to = before + 2 * reach;
    if (threshold > 0.5 * peak || !firstHalfWave(x, before, to, x.length, threshold, 0, out)) {
      let high = 0;
      for (let i = before; i < x.length; i++) high = Math.max(high, Math.abs(attack.at(from + i)));
      out.highLed = high > peak;
      return;
    }
    const { sign, summit, summitAt } = out;
    const level = LEVEL * summit;
    out.found = true;
    out.frame = from + foot(x, 1, summitAt, sign, level);
    let high = 0;
    for (let i = riseOver(x, 1, summitAt, sign, level) - this.high; i <= summitAt; i++)
      high = Math.max(high, Math.abs(attack.at(from + i)));
    out.alone = high < ALONE * summit;
    out.highLed = !out.alone;
    out.first = !(out.frame - onset > this.earlier);
  }
}
