/**
 * Where a hit may begin in a channel: the first half-waves that rise over growing shares of its peak. Where another drum's stroke
 * comes some milliseconds before, the low shares find that one, and the higher ones the drum itself.
 */
import { firstHalfWave, foot, HalfWave } from '../signal/foot';
import { peakOf } from '../signal/peak';
import type { Ring } from '../signal/ring';
import { HIT, type OnsetTuning } from '../tuning/hitTuning';

/** onsets kept of a hit in one channel */
export const ONSETS = 6;

/** pairs of onsets kept of a hit */
export const PAIRS = 20;

/** A result that is filled in, never made anew. */
export class Onsets {
  count = 0;
  /** frames, rising; ways of the pushes; the share of the peak over which each rises, by its number */
  readonly frame = new Float64Array(ONSETS);
  readonly sign = new Int8Array(ONSETS);
  readonly share = new Uint8Array(ONSETS);
}

export class OnsetPicker {
  private readonly before: number;
  private readonly reach: number;
  private readonly peakAfter: number;
  private readonly leastFrames: number;
  private readonly same: number;
  private readonly x: Float64Array;
  private readonly wave = new HalfWave();

  /** @param maxLagMs onsets lie up to so long after the other channel's */
  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly tuning: OnsetTuning = HIT.onset,
  ) {
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.reach = Math.round((maxLagMs / 1000) * sampleRate);
    this.peakAfter = Math.round(tuning.peakAfterSeconds * sampleRate);
    this.leastFrames = Math.max(2, Math.round(tuning.leastSeconds * sampleRate));
    this.same = tuning.sameSeconds * sampleRate;
    this.x = new Float64Array(this.before + this.reach + this.peakAfter);
  }

  /** frames after `at` that `pick` looks at */
  get lookAheadFrames(): number {
    return this.reach + this.peakAfter;
  }

  /** Round a frame at which the hit began in the other channel. Real-time safe: yes. */
  pick(ring: Ring, at: number, out: Onsets): void {
    const { x, before, tuning } = this;
    const from = Math.round(at) - before;
    ring.copy(from, x, x.length);
    out.count = 0;
    const peak = peakOf(x, before, x.length);
    if (!(peak >= tuning.leastPeak)) return;
    const to = before + this.reach;
    let start = 0;
    for (let i = 0; i < tuning.shares.length && out.count < ONSETS; i++) {
      const share = tuning.shares[i] as number;
      if (!firstHalfWave(x, start, to, x.length, share * peak, this.leastFrames, this.wave)) continue;
      const { sign, summit, summitAt } = this.wave;
      const frame = foot(x, 0, summitAt, sign, tuning.footShare * summit);
      // what rises over a higher share doesn't come before
      start = Math.max(start, summitAt - this.leastFrames);
      const last = out.count - 1;
      if (last >= 0 && Math.abs((out.frame[last] as number) - from - frame) < this.same) continue;
      out.frame[out.count] = from + frame;
      out.sign[out.count] = sign;
      out.share[out.count] = i;
      out.count++;
    }
  }
}
