/** The first arrival of a hit in one channel: where its first push begins, and which way it goes. */
import type { Ring } from '../signal/ring';

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
  /** height of the first half-wave */
  summit = 0;
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
  /** the stretch looked at, from cleanFrom before the earliest arrival on */
  private readonly x: Float64Array;
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
    this.x = new Float64Array(this.cleanFrom + 2 * this.reach + this.peakAfter);
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

    const { x: y, cleanFrom: at0 } = this;
    x.copy(from - at0, y, this.x.length);
    const last = at0 + to - from;
    if (!firstPush(y, at0, last, last + this.peakAfter, threshold, FOOT_NOISE_FACTOR * noise, this.halfWave, out))
      return;
    const at = Math.round(out.frame);
    let before = noise * 1e-3;
    for (let m = at - this.cleanFrom; m < at - this.cleanTo; m++) before = Math.max(before, Math.abs(y[m] as number));
    out.quality = out.summit / Math.max(before, 1e-9);
    out.frame += from - at0;
    out.found = true;
  }
}

/**
 * The first half-wave of x in from…to−1 that rises over `threshold` and lasts at least `halfWave` samples: its sign, its
 * foot (10 % of its summit, or `footFloor`, interpolated; `frame` counts within x), its rise and its summit go into `out`.
 * Real-time safe: yes. @param end x is looked at up to here
 */
export function firstPush(
  x: Float64Array,
  from: number,
  to: number,
  end: number,
  threshold: number,
  footFloor: number,
  halfWave: number,
  out: Arrival,
): boolean {
  let n = from;
  while (n < to) {
    if (Math.abs(x[n] as number) < threshold) {
      n++;
      continue;
    }
    const sign = (x[n] as number) > 0 ? 1 : -1;
    let stop = n;
    let summit = 0;
    let summitAt = n;
    while (stop < end && (x[stop] as number) * sign > 0) {
      const v = (x[stop] as number) * sign;
      if (v > summit) {
        summit = v;
        summitAt = stop;
      }
      stop++;
    }
    let start = n;
    while (start > from && (x[start - 1] as number) * sign > 0) start--;
    if (stop - start < halfWave) {
      n = stop;
      continue;
    }
    out.frame = foot(x, from, summitAt, sign, Math.max(FOOT_SHARE * summit, footFloor));
    out.sign = sign;
    out.summit = summit;
    out.riseFrames = summitAt - out.frame;
    return true;
  }
  return false;
}

/** Walk back from a summit to where x·sign falls to `level`; interpolated. Real-time safe: yes. */
export function foot(x: Float64Array, from: number, summitAt: number, sign: number, level: number): number {
  let k = summitAt;
  while (k > from && (x[k - 1] as number) * sign > level) k--;
  // value at k is above the level, at k−1 at or below it
  const above = (x[k] as number) * sign;
  const below = (x[k - 1] as number) * sign;
  return above > below ? k - (above - level) / (above - below) : k;
}
