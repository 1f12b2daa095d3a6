/**
 * The average of the hits of one drum, in four groups by time, both channels: each hit is laid on those before it where
 * its attack fits best in the channel that stands farther out of its noise; both channels are shifted alike. What doesn't
 * resemble the average stays out; the rest is weighted by its own amplitude (matched: equal noise in all).
 */
import { POOL_HITS } from '../../reading/limits';
import type { HitWaves } from '../hit/hitWaves';
import { firstOver } from '../signal/foot';
import { parabolicOffset } from '../signal/gcc';
import { median } from '../signal/median';
import { AVERAGE, type AverageTuning } from '../tuning/estimateTuning';

/** groups of hits, in order of time */
export const GROUPS = 4;
/** all groups, as bits */
export const ALL_GROUPS = 0b1111;

export class HitAverage {
  /** hits that were offered, and those in the average */
  offered = 0;
  members = 0;
  /** 1: the hit offered as i-th is in the average */
  readonly has = new Uint8Array(POOL_HITS);
  /** samples of a channel's average: those of a kept wave */
  readonly length: number;
  private readonly slots = new Int32Array(POOL_HITS);
  private readonly order = new Int32Array(POOL_HITS);
  private next = 0;
  private onA = true;
  private attackAt = 0;
  /** averages of the four groups, one after the other, and of all in the channel by which hits are laid */
  private readonly groupA: Float64Array;
  private readonly groupB: Float64Array;
  private readonly reference: Float64Array;
  private readonly corr: Float64Array;
  /** median peaks */
  private usualA = 0;
  private usualB = 0;
  private readonly sorted = new Float64Array(POOL_HITS);
  private bestAt = 0;
  private bestHeight = 0;
  private readonly before: number;
  private readonly coarseAfter: number;
  private readonly fineAfter: number;
  private readonly coarseReach: number;
  private readonly fineReach: number;
  private readonly stride: number;

  constructor(
    sampleRate: number,
    private readonly waves: HitWaves,
    private readonly tuning: AverageTuning = AVERAGE,
  ) {
    const frames = (seconds: number): number => Math.round(seconds * sampleRate);
    this.before = frames(tuning.beforeSeconds);
    this.coarseAfter = frames(tuning.coarseAfterSeconds);
    this.fineAfter = frames(tuning.fineAfterSeconds);
    this.coarseReach = frames(tuning.coarseReachSeconds);
    this.fineReach = frames(tuning.fineReachSeconds);
    this.stride = Math.max(1, Math.floor(sampleRate / tuning.coarseRateHz));
    const n = waves.length;
    this.length = n;
    this.groupA = new Float64Array(GROUPS * n);
    this.groupB = new Float64Array(GROUPS * n);
    this.reference = new Float64Array(n);
    this.corr = new Float64Array(2 * Math.max(this.coarseReach, this.fineReach) + 1);
  }

  /** Offer n hits of one drum (slots, oldest first). Real-time safe: yes. */
  begin(slots: Int32Array, n: number): void {
    this.clear();
    const { waves } = this;
    this.offered = n;
    let a = 0;
    let b = 0;
    for (let i = 0; i < n; i++) {
      const s = slots[i] as number;
      this.slots[i] = s;
      a += Math.log(((waves.peakA[s] as number) + 1e-7) / ((waves.noiseA[s] as number) + 1e-7));
      b += Math.log(((waves.peakB[s] as number) + 1e-7) / ((waves.noiseB[s] as number) + 1e-7));
    }
    this.onA = a >= b;
    this.usualA = this.usual(waves.peakA, n);
    this.usualB = this.usual(waves.peakB, n);
    const peaks = this.onA ? waves.peakA : waves.peakB;
    for (let i = 0; i < n; i++) {
      const p = peaks[slots[i] as number] as number;
      let at = i;
      while (at > 0 && (peaks[this.slots[this.order[at - 1] as number] as number] as number) < p) {
        this.order[at] = this.order[at - 1] as number;
        at--;
      }
      this.order[at] = i;
    }
    this.groupA.fill(0);
    this.groupB.fill(0);
    this.reference.fill(0);
  }

  /** Lay the next hit, the loudest first. Real-time safe: yes. @returns true when all have been laid */
  lay(): boolean {
    if (this.next >= this.offered) return true;
    const i = this.order[this.next++] as number;
    const slot = this.slots[i] as number;
    const { waves } = this;
    const x = this.onA ? waves.a : waves.b;
    const base = slot * waves.length;
    let shift = 0;
    if (this.members === 0) this.attackAt = this.findAttack(slot);
    else {
      const { attackAt, stride } = this;
      const from = attackAt - this.before;
      this.search(x, base, from, attackAt + this.coarseAfter, 0, this.coarseReach, stride);
      const near = Math.round(this.bestAt);
      this.search(x, base, from, attackAt + this.fineAfter, near, this.fineReach, 1);
      shift = this.bestAt;
      if (this.bestHeight < this.tuning.alike) return this.next >= this.offered;
    }
    const { mostGain } = this.tuning;
    const gainA = gainOf(waves.peakA[slot] as number, mostGain * this.usualA);
    const gainB = gainOf(waves.peakB[slot] as number, mostGain * this.usualB);
    const group = Math.floor((GROUPS * i) / this.offered) * waves.length;
    add(this.groupA, group, waves.a, base, waves.length, shift, gainA);
    add(this.groupB, group, waves.b, base, waves.length, shift, gainB);
    const peak = (this.onA ? waves.peakA : waves.peakB)[slot] as number;
    add(this.reference, 0, x, base, waves.length, shift, peak);
    this.has[i] = 1;
    this.members++;
    return this.next >= this.offered;
  }

  private usual(peaks: Float64Array, n: number): number {
    for (let i = 0; i < n; i++) this.sorted[i] = peaks[this.slots[i] as number] as number;
    return median(this.sorted, n);
  }

  /** Where the reference hit's attack begins, samples from the start of its wave. */
  private findAttack(slot: number): number {
    const { waves, onA } = this;
    const x = onA ? waves.a : waves.b;
    const peak = (onA ? waves.peakA : waves.peakB)[slot] as number;
    const noise = (onA ? waves.noiseA : waves.noiseB)[slot] as number;
    const { attackShare, attackNoiseFactor } = this.tuning;
    const threshold = Math.max(attackShare * peak, attackNoiseFactor * noise);
    const base = slot * waves.length;
    return firstOver(x, base + waves.quiet, base + waves.length - this.coarseAfter, threshold) - base;
  }

  /** Where x fits the reference best: x[t + shift] on reference[t], t in from…to−1, shift within ± reach of mid. */
  private search(
    x: Float32Array,
    base: number,
    from: number,
    to: number,
    mid: number,
    reach: number,
    stride: number,
  ): void {
    const { reference, corr } = this;
    const most = this.waves.length - 1;
    const n = Math.floor(reach / stride);
    let best = 0;
    for (let d = -n; d <= n; d++) {
      const shift = mid + d * stride;
      let xr = 0;
      let xx = 0;
      let rr = 0;
      for (let t = Math.max(from, -shift); t < Math.min(to, most - shift); t += stride) {
        const v = x[base + t + shift] as number;
        const r = reference[t] as number;
        xr += v * r;
        xx += v * v;
        rr += r * r;
      }
      const height = xr / Math.sqrt(xx * rr + 1e-30);
      corr[d + n] = height;
      if (height > (corr[best] as number)) best = d + n;
    }
    this.bestHeight = corr[best] as number;
    let offset = 0;
    if (best > 0 && best < 2 * n)
      offset = parabolicOffset(corr[best - 1] as number, corr[best] as number, corr[best + 1] as number);
    this.bestAt = mid + (best - n + offset) * stride;
  }

  /** The average of some groups of a channel. Real-time safe: yes. @param mask bit g stands for group g; `out`: `length` samples */
  write(channel: 'a' | 'b', mask: number, out: Float64Array): void {
    const groups = channel === 'a' ? this.groupA : this.groupB;
    const n = this.length;
    out.fill(0);
    for (let g = 0; g < GROUPS; g++) {
      if (!(mask & (1 << g))) continue;
      for (let k = 0; k < n; k++) out[k] = (out[k] as number) + (groups[g * n + k] as number);
    }
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.offered = 0;
    this.members = 0;
    this.next = 0;
    this.has.fill(0);
  }
}

/** Matched to the hit's amplitude, up to a limit: the loudest hits are often struck elsewhere. */
function gainOf(peak: number, limit: number): number {
  const most = Math.min(peak, limit);
  return peak > 0 ? (most * most) / peak : 0;
}

/** sum[at + t] += gain · x[base + t + shift], t in 0…n−1, between samples by a cubic (Catmull–Rom); 0 outside the wave. */
function add(
  sum: Float64Array,
  at: number,
  x: Float32Array,
  base: number,
  n: number,
  shift: number,
  gain: number,
): void {
  const whole = Math.floor(shift);
  const f = shift - whole;
  const w0 = 0.5 * f * (f * (2 - f) - 1) * gain;
  const w1 = 0.5 * (f * f * (3 * f - 5) + 2) * gain;
  const w2 = 0.5 * f * (f * (4 - 3 * f) + 1) * gain;
  const w3 = 0.5 * f * f * (f - 1) * gain;
  const from = Math.max(0, 1 - whole);
  const to = Math.min(n, n - 2 - whole);
  for (let t = from; t < to; t++) {
    const k = base + t + whole;
    sum[at + t] =
      (sum[at + t] as number) +
      w0 * (x[k - 1] as number) +
      w1 * (x[k] as number) +
      w2 * (x[k + 1] as number) +
      w3 * (x[k + 2] as number);
  }
}
