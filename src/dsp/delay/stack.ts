/**
 * First arrivals under noise: the hits of one drum are laid on each other and averaged, so that noise falls with the
 * square root of their number, and the first push is picked in the average.
 * 1. the loudest hit of the channel whose attack stands farther out of its noise is the first of the stack; each other one
 *    is laid on the stack where its attack fits best in that channel; both channels are shifted alike
 * 2. what doesn't resemble the stack stays out; the rest is weighted by its own amplitude (matched: equal noise in all)
 * 3. the picks' rules on the average, with the noise that the average itself has before the hit
 * 4. no answer unless noise leaves no room for a hidden first push, and the halves of the hits, parted in three ways, say
 *    the same. Agreement alone would be no proof: a push that noise hides is hidden in all hits.
 * Spread over steps: `begin`, then `work` until it returns true.
 */

import { HITS_NEEDED, POOL_HITS } from '../../reading/limits';
import { Arrival, firstPush, foot } from '../hit/arrival';
import type { HitWaves } from '../hit/hitWaves';
import { parabolicOffset } from '../signal/gcc';
import { median } from '../signal/median';

const SHARE_OF_PEAK = 0.04;
/** the threshold over the largest noise of the average, and how far over it a push has to come out to count */
const NOISE_FACTOR = 2;
const CLEAR_FACTOR = 4;
/** a little more noise will do where the push stands far out of it, and another witness is asked */
const BOUND_SHARE_OF_PEAK = 0.052;
const BOUND_CLEAR_FACTOR = 10;
const FOOT_NOISE_FACTOR = 1;
const HALF_WAVE_SECONDS = 0.00009;
/** what comes 2…0.15 ms before the push is noise, or small against it */
const CLEAN_FROM_SECONDS = 0.002;
const CLEAN_TO_SECONDS = 0.00015;
const CLEAN_QUALITY = 8;
const AS_NOISE = 1.25;
/** noise of the average: from 2 ms of the waves on, until the first push may come */
const NOISE_FROM_SECONDS = 0.002;
const PICK_FROM_SECONDS = 0.01;
const TAIL_SECONDS = 0.006;
/** the attack begins where the reference hit reaches this share of its peak */
const ATTACK_SHARE = 0.15;
/** the stretch round it by which hits are laid on each other, first coarsely, and how far they are moved */
const BEFORE_SECONDS = 0.001;
const COARSE_AFTER_SECONDS = 0.003;
const FINE_AFTER_SECONDS = 0.0015;
const COARSE_SECONDS = 0.002;
const FINE_SECONDS = 0.0004;
const COARSE_RATE = 24000;
/** correlation with the stack that a hit must have to join it */
const ALIKE = 0.7;
/** no hit counts for more than one of this many times the usual peak (3 dB) */
const MOST_GAIN = Math.SQRT2;
/** the halves' delays lie within this of the whole's */
const HALVES_SECONDS = 0.00015;
/** the noise may move a pick by no more */
const MOVE_SECONDS = 0.00012;
/** of a normal distribution's standard deviation: half of all lie within */
const QUARTILE = 0.6745;
const GROUPS = 4;
const HALVES = 6;
/** which of the four groups (in order of time) each half takes: bit g stands for group g */
const HALF_MASKS = [0b0011, 0b1100, 0b0101, 0b1010, 0b1001, 0b0110];
const ALL = 0b1111;

export class Stack {
  /** the answer: B−A samples and product of signs; sign 0: none */
  delay = Number.NaN;
  sign = 0;
  /** hits in the average, and those that were offered */
  members = 0;
  offered = 0;
  /** half of the hits lie within this, as their halves scatter, samples */
  spread = Number.NaN;
  /** how far the noise left may move the delay, samples, 90 % */
  noiseMove = Number.NaN;
  /** the noise, not the drum, set a threshold: a soft first push may be hidden; another witness has to be near */
  bound = false;
  /** difference of the two channels' rises, B−A samples */
  riseDifference = 0;
  /** 1: the hit offered as i-th is in the average */
  readonly inStack = new Uint8Array(POOL_HITS);

  /** the picks of the whole average */
  readonly a = new Arrival();
  readonly b = new Arrival();
  private readonly halfA = new Arrival();
  private readonly halfB = new Arrival();
  private readonly slots = new Int32Array(POOL_HITS);
  private readonly order = new Int32Array(POOL_HITS);
  private next = 0;
  private onA = true;
  private attackAt = 0;
  /** averages of the four groups, one after the other, and of all in the channel by which hits are laid */
  private readonly groupA: Float64Array;
  private readonly groupB: Float64Array;
  private readonly reference: Float64Array;
  private readonly sum: Float64Array;
  private readonly corr: Float64Array;
  /** median peaks */
  private usualA = 0;
  private usualB = 0;
  private readonly sorted = new Float64Array(POOL_HITS);
  private laid = false;
  private half = -1;
  private squares = 0;
  private agree = false;
  private bestAt = 0;
  private bestHeight = 0;

  constructor(
    private readonly sampleRate: number,
    private readonly waves: HitWaves,
  ) {
    const n = waves.length;
    this.groupA = new Float64Array(GROUPS * n);
    this.groupB = new Float64Array(GROUPS * n);
    this.reference = new Float64Array(n);
    this.sum = new Float64Array(n);
    this.corr = new Float64Array(2 * this.frames(COARSE_SECONDS) + 1);
  }

  private frames(seconds: number): number {
    return Math.round(seconds * this.sampleRate);
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

  /** One unit of work: a hit to lay, or a pick. Real-time safe: yes. @returns true when there is nothing left to do */
  work(): boolean {
    if (!this.laid) {
      this.laid = this.hit();
      return this.laid && this.members < HITS_NEEDED;
    }
    return this.finish();
  }

  /** Lay the next hit, the loudest first. @returns true when all have been laid */
  private hit(): boolean {
    if (this.next >= this.offered) return true;
    const i = this.order[this.next++] as number;
    const slot = this.slots[i] as number;
    const { waves } = this;
    const x = this.onA ? waves.a : waves.b;
    const base = slot * waves.length;
    let shift = 0;
    if (this.members === 0) this.attackAt = this.findAttack(slot);
    else {
      const from = this.attackAt - this.frames(BEFORE_SECONDS);
      const stride = Math.max(1, Math.floor(this.sampleRate / COARSE_RATE));
      this.search(x, base, from, this.attackAt + this.frames(COARSE_AFTER_SECONDS), 0, COARSE_SECONDS, stride);
      const near = Math.round(this.bestAt);
      this.search(x, base, from, this.attackAt + this.frames(FINE_AFTER_SECONDS), near, FINE_SECONDS, 1);
      shift = this.bestAt;
      if (this.bestHeight < ALIKE) return this.next >= this.offered;
    }
    const group = Math.floor((GROUPS * i) / this.offered) * waves.length;
    add(this.groupA, group, waves.a, base, waves.length, shift, gainOf(waves.peakA[slot] as number, this.usualA));
    add(this.groupB, group, waves.b, base, waves.length, shift, gainOf(waves.peakB[slot] as number, this.usualB));
    const peak = (this.onA ? waves.peakA : waves.peakB)[slot] as number;
    add(this.reference, 0, x, base, waves.length, shift, peak);
    this.inStack[i] = 1;
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
    const threshold = Math.max(ATTACK_SHARE * peak, NOISE_FACTOR * noise);
    const base = slot * waves.length;
    const last = waves.length - this.frames(COARSE_AFTER_SECONDS);
    let k = waves.quiet;
    while (k < last && Math.abs(x[base + k] as number) < threshold) k++;
    return k;
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
    const n = Math.floor(this.frames(reach) / stride);
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

  /** The picks in the average, then in a half at each call. Real-time safe: yes. @returns true when done */
  private finish(): boolean {
    const { a, b } = this;
    if (this.half < 0) {
      if (this.members < HITS_NEEDED) return true;
      if (!this.pick(this.groupA, ALL, a) || !this.pick(this.groupB, ALL, b)) return true;
      this.noiseMove = Math.hypot(this.move(this.groupA, a), this.move(this.groupB, b));
      this.riseDifference = b.riseFrames - a.riseFrames;
      this.agree = true;
      this.squares = 0;
      this.half = 0;
      return false;
    }
    const delay = b.frame - a.frame;
    const sign = a.sign * b.sign;
    const mask = HALF_MASKS[this.half] as number;
    const found = this.pick(this.groupA, mask, this.halfA) && this.pick(this.groupB, mask, this.halfB);
    const off = this.halfB.frame - this.halfA.frame - delay;
    if (!found || this.halfA.sign * this.halfB.sign !== sign || Math.abs(off) > this.frames(HALVES_SECONDS))
      this.agree = false;
    this.squares += off * off;
    if (this.agree && ++this.half < HALVES) return false;
    if (!this.agree || !clear(a) || !clear(b) || this.noiseMove > this.frames(MOVE_SECONDS)) return true;
    this.spread = QUARTILE * Math.sqrt((this.squares / HALVES) * this.members);
    this.delay = delay;
    this.sign = sign;
    this.bound = a.noiseBound || b.noiseBound;
    return true;
  }

  private pick(groups: Float64Array, mask: number, out: Arrival): boolean {
    const { sum } = this;
    this.add(groups, mask);
    const from = this.frames(PICK_FROM_SECONDS);
    const n = sum.length;
    const to = n - this.frames(TAIL_SECONDS);
    let noise = 0;
    for (let k = this.frames(NOISE_FROM_SECONDS); k < from; k++) noise = Math.max(noise, Math.abs(sum[k] as number));
    let peak = 0;
    for (let k = from; k < n; k++) peak = Math.max(peak, Math.abs(sum[k] as number));
    out.noise = noise;
    out.peak = peak;
    out.noiseBound = NOISE_FACTOR * noise > SHARE_OF_PEAK * peak;
    const threshold = Math.max(SHARE_OF_PEAK * peak, NOISE_FACTOR * noise);
    const halfWave = Math.max(2, this.frames(HALF_WAVE_SECONDS));
    out.found = peak > 0 && firstPush(sum, from, to, n, threshold, FOOT_NOISE_FACTOR * noise, halfWave, out);
    if (!out.found) return false;
    const at = Math.round(out.frame);
    let before = 0;
    for (let k = at - this.frames(CLEAN_FROM_SECONDS); k < at - this.frames(CLEAN_TO_SECONDS); k++)
      before = Math.max(before, Math.abs(sum[k] as number));
    out.quality = out.summit / Math.max(1e-9, before);
    return true;
  }

  private add(groups: Float64Array, mask: number): void {
    const { sum } = this;
    const n = sum.length;
    sum.fill(0);
    for (let g = 0; g < GROUPS; g++) {
      if (!(mask & (1 << g))) continue;
      for (let k = 0; k < n; k++) sum[k] = (sum[k] as number) + (groups[g * n + k] as number);
    }
  }

  /** How far the pick moves when the noise adds to the foot or takes from it. */
  private move(groups: Float64Array, x: Arrival): number {
    this.add(groups, ALL);
    const level = Math.max(0.1 * x.summit, FOOT_NOISE_FACTOR * x.noise);
    const up = Math.min(0.9 * x.summit, level + 0.6 * x.noise);
    return foot(this.sum, 0, Math.round(x.frame + x.riseFrames), x.sign, up) - x.frame;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.delay = Number.NaN;
    this.sign = 0;
    this.members = 0;
    this.offered = 0;
    this.next = 0;
    this.half = -1;
    this.laid = false;
    this.bound = false;
    this.spread = Number.NaN;
    this.noiseMove = Number.NaN;
    this.riseDifference = 0;
    this.inStack.fill(0);
    this.a.found = false;
    this.b.found = false;
  }
}

/** Noise leaves no room for an earlier push, and nothing comes before this one. */
function clear(x: Arrival): boolean {
  const before = x.summit / x.quality;
  const bound = NOISE_FACTOR * x.noise > BOUND_SHARE_OF_PEAK * x.peak;
  const factor = x.noiseBound ? BOUND_CLEAR_FACTOR : CLEAR_FACTOR;
  return !bound && x.summit >= factor * x.noise && (x.quality >= CLEAN_QUALITY || before <= AS_NOISE * x.noise);
}

/** Matched to the hit's amplitude, up to a limit: the loudest hits are often struck elsewhere. */
function gainOf(peak: number, usual: number): number {
  const most = Math.min(peak, MOST_GAIN * usual);
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
