/** The first arrival of a hit in one channel: where its first push begins, and which way it goes. */
import type { Ring } from './ring';

const PEAK_AFTER_SECONDS = 0.015;
const NOISE_SECONDS = 0.015;
const SHARE_OF_PEAK = 0.04;
const NOISE_FACTOR = 3;
const FLOOR = 1e-4;
const HALF_WAVE_SECONDS = 0.00009;
const FOOT_SHARE = 0.1;
const FOOT_NOISE_FACTOR = 1.5;
const CLEAN_FROM_SECONDS = 0.002;
const CLEAN_TO_SECONDS = 0.00015;

/** A result that is filled in, never made anew. */
export class Arrival {
  found = false;
  /** absolute frame number, fractional: the foot (10 %) of the first half-wave */
  frame = 0;
  /** +1 or −1: the way of the first push */
  sign = 0;
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

export class ArrivalPicker {
  private readonly reach: number;
  private readonly peakAfter: number;
  private readonly noiseFrames: number;
  private readonly halfWave: number;
  private readonly cleanFrom: number;
  private readonly cleanTo: number;
  /** frames after the trigger which `pick` looks at */
  readonly lookAheadFrames: number;

  /** @param maxLagMs picks lie within ± this of the trigger */
  constructor(sampleRate: number, maxLagMs: number) {
    this.reach = Math.round((maxLagMs / 1000) * sampleRate);
    this.peakAfter = Math.round(PEAK_AFTER_SECONDS * sampleRate);
    this.noiseFrames = Math.round(NOISE_SECONDS * sampleRate);
    this.halfWave = Math.max(2, Math.round(HALF_WAVE_SECONDS * sampleRate));
    this.cleanFrom = Math.round(CLEAN_FROM_SECONDS * sampleRate);
    this.cleanTo = Math.round(CLEAN_TO_SECONDS * sampleRate);
    this.lookAheadFrames = this.reach + this.peakAfter;
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

    let n = from;
    while (n < to) {
      if (Math.abs(x.at(n)) < threshold) {
        n++;
        continue;
      }
      const sign = x.at(n) > 0 ? 1 : -1;
      let end = n;
      let summit = 0;
      let summitAt = n;
      while (end < to + this.peakAfter && x.at(end) * sign > 0) {
        const v = x.at(end) * sign;
        if (v > summit) {
          summit = v;
          summitAt = end;
        }
        end++;
      }
      let start = n;
      while (start > from && x.at(start - 1) * sign > 0) start--;
      if (end - start < this.halfWave) {
        n = end;
        continue;
      }
      const foot = Math.max(FOOT_SHARE * summit, FOOT_NOISE_FACTOR * noise);
      let k = summitAt;
      while (k > from && x.at(k - 1) * sign > foot) k--;
      // value at k is above the foot, at k−1 at or below it
      const above = x.at(k) * sign;
      const below = x.at(k - 1) * sign;
      out.frame = above > below ? k - (above - foot) / (above - below) : k;
      out.sign = sign;
      out.riseFrames = summitAt - out.frame;
      let before = noise * 1e-3;
      const at = Math.round(out.frame);
      for (let m = at - this.cleanFrom; m < at - this.cleanTo; m++) before = Math.max(before, Math.abs(x.at(m)));
      out.quality = summit / Math.max(before, 1e-9);
      out.found = true;
      return;
    }
  }
}
