/**
 * The second witness: which delay fits the attacks of all hits of one drum best.
 * 1. the hits' cross-spectra, each scaled to equal energy, are averaged, weighted by their coherence over the hits and
 *    partially whitened: their curve; its highest peaks, and the first arrivals' difference, are the candidates
 * 2. for each candidate the attacks are laid on each other, B shifted by it, and correlated on a short stretch
 * 3. score = height in 1 × height in 2 × a preference for lags near the first arrivals' difference
 * Spread over steps: `begin` (one transform), `hit` once for each hit, `finish`.
 */

import { POOL_HITS } from '../../reading/limits';
import { STORED_HITS } from '../hit/hitStore';
import { type Gcc, parabolicOffset } from '../signal/gcc';
import { median } from '../signal/median';
import { productsAt } from '../signal/products';
import type { Ring } from '../signal/ring';
import { room64 } from '../signal/room';
import { fadeWindow } from '../signal/windows';
import { FIT, type FitTuning } from '../tuning/estimateTuning';
import { AttackCurve } from './attackCurve';

/** lags at which a hit's result is remembered, at least */
const LAID_KEPT = 16;
const LAYS_A_CALL = 3;

export class AttackFit {
  /** the answer; sign 0: none */
  delay = Number.NaN;
  sign = 0;
  /** score of the best other candidate over the winner's, 0–1 */
  runnerUp = Number.NaN;
  /** share of the hits that agree near the winner, and their median deviation, samples */
  agree = Number.NaN;
  members = 0;
  spread = Number.NaN;
  private readonly curve: AttackCurve;
  private readonly lag: Float64Array;
  private readonly height: Float64Array;
  private candidates = 0;
  private hits = 0;
  private readonly hitLag: Float64Array;
  private readonly hitHeight: Float64Array;
  private readonly sorted = new Float64Array(POOL_HITS);
  private readonly near: number;
  private readonly before: number;
  private readonly length: number;
  private readonly window: Float64Array;
  private readonly frameA: Float64Array;
  /** the kept attacks, slot after slot: from before + near samples ahead of the earlier arrival */
  private readonly attackLength: number;
  private readonly attackA: Float64Array;
  private readonly attackB: Float64Array;
  /** where a kept hit has been laid already, and what came of it */
  private readonly laidKept: number;
  private readonly laidAt: Float64Array;
  private readonly laidNext = new Uint8Array(STORED_HITS);
  private readonly laidLag: Float64Array;
  private readonly laidHeight: Float64Array;
  private readonly corr: Float64Array;
  private pickLag = Number.NaN;

  constructor(
    private readonly sampleRate: number,
    readonly maxLagSamples: number,
    gccSize: number,
    private readonly ringA: Ring,
    private readonly ringB: Ring,
    private readonly tuning: FitTuning = FIT,
  ) {
    this.curve = new AttackCurve(sampleRate, maxLagSamples, gccSize, tuning.curve);
    // the peaks, and the first arrivals' difference
    const candidates = tuning.peaks + 1;
    this.lag = new Float64Array(candidates);
    this.height = new Float64Array(candidates);
    this.hitLag = new Float64Array(candidates * POOL_HITS);
    this.hitHeight = new Float64Array(candidates * POOL_HITS);
    this.laidKept = Math.max(LAID_KEPT, candidates);
    this.laidAt = new Float64Array(STORED_HITS * this.laidKept).fill(Number.NaN);
    this.laidLag = room64(STORED_HITS * this.laidKept);
    this.laidHeight = room64(STORED_HITS * this.laidKept);
    this.near = Math.round(tuning.nearSeconds * sampleRate);
    this.before = Math.round(tuning.beforeSeconds * sampleRate);
    this.length = this.before + Math.round(tuning.afterSeconds * sampleRate);
    const fade = Math.round(tuning.fadeSeconds * sampleRate);
    this.window = fadeWindow(this.length, { fadeIn: fade, fadeOut: fade });
    this.frameA = new Float64Array(this.length);
    this.attackLength = this.length + 2 * this.near + maxLagSamples + 1;
    this.attackA = room64(STORED_HITS * this.attackLength);
    this.attackB = room64(STORED_HITS * this.attackLength);
    this.corr = new Float64Array(2 * this.near + 1);
  }

  /** Keep a hit: its attacks from the earlier arrival on, and its spectra, scaled to equal energy. Real-time safe: yes. */
  keep(slot: number, gcc: Gcc, anchor: number): void {
    const from = Math.round(anchor) - this.before - this.near;
    const at = slot * this.attackLength;
    this.ringA.copy(from, this.attackA, this.attackLength, at);
    this.ringB.copy(from, this.attackB, this.attackLength, at);
    this.laidAt.fill(Number.NaN, slot * this.laidKept, (slot + 1) * this.laidKept);
    this.curve.keep(slot, gcc);
  }

  /**
   * Average n hits (slots), pick the candidates. One transform. Real-time safe: yes.
   * @param pickLag median difference of the first arrivals, samples; NaN where there is none
   */
  begin(slots: Int32Array, n: number, pickLag: number): void {
    this.hits = n;
    this.pickLag = pickLag;
    this.candidates = 0;
    this.curve.average(slots, n);
    this.findPeaks();
  }

  /** The highest |peaks| of the curve, and the first arrivals' difference. */
  private findPeaks(): void {
    const c = this.curve.curve;
    const { peaks } = this.tuning;
    for (let k = 1; k < c.length - 1; k++) {
      const v = Math.abs(c[k] as number);
      if (v < Math.abs(c[k - 1] as number) || v <= Math.abs(c[k + 1] as number)) continue;
      let at = this.candidates;
      while (at > 0 && (this.height[at - 1] as number) < v) at--;
      if (at >= peaks) continue;
      for (let j = Math.min(this.candidates, peaks - 1); j > at; j--) {
        this.height[j] = this.height[j - 1] as number;
        this.lag[j] = this.lag[j - 1] as number;
      }
      this.height[at] = v;
      this.lag[at] = k - this.maxLagSamples;
      this.candidates = Math.min(peaks, this.candidates + 1);
    }
    if (Number.isNaN(this.pickLag)) return;
    const at = Math.round(this.pickLag) + this.maxLagSamples;
    if (at < 0 || at >= c.length) return;
    let v = 0;
    const near = Math.round(this.tuning.sameSeconds * this.sampleRate);
    for (let k = Math.max(0, at - near); k <= Math.min(c.length - 1, at + near); k++)
      v = Math.max(v, Math.abs(c[k] as number));
    this.lag[this.candidates] = Math.round(this.pickLag);
    this.height[this.candidates] = v;
    this.candidates++;
  }

  /**
   * Lay hit i (0…n−1, kept in `slot`) on itself at each candidate, unless it has been laid there before.
   * Lays at most LAYS_A_CALL times. Real-time safe: yes.
   * @returns false if there is more to do for this hit
   */
  hit(i: number, slot: number): boolean {
    const { laidKept } = this;
    let laid = 0;
    for (let c = 0; c < this.candidates; c++) {
      const lag = this.lag[c] as number;
      let known = -1;
      for (let k = slot * laidKept; k < (slot + 1) * laidKept; k++) if (this.laidAt[k] === lag) known = k;
      if (known < 0) {
        if (laid++ === LAYS_A_CALL) return false;
        known = slot * laidKept + (this.laidNext[slot] as number);
        this.laidNext[slot] = ((this.laidNext[slot] as number) + 1) % laidKept;
        this.laidAt[known] = lag;
        this.lay(slot, lag, known);
      }
      this.hitLag[c * POOL_HITS + i] = this.laidLag[known] as number;
      this.hitHeight[c * POOL_HITS + i] = this.laidHeight[known] as number;
    }
    return true;
  }

  /** Correlate the two attacks of a hit, B shifted by `lag` and ± `near` about it. */
  private lay(slot: number, lag: number, to: number): void {
    const { frameA, attackA, attackB, window, corr, near, length } = this;
    const a = slot * this.attackLength + near + Math.max(0, -lag);
    const b = slot * this.attackLength + Math.max(0, lag);
    let aa = 0;
    for (let k = 0; k < length; k++) {
      const x = attackA[a + k] as number;
      const wx = x * (window[k] as number);
      frameA[k] = wx;
      aa += wx * x;
    }
    // energy of B under the window's flat part moves on by one sample in, one out
    let bb = 0;
    for (let k = 0; k < length; k++) bb += (attackB[b + k] as number) ** 2;
    productsAt(frameA, attackB, b, length, corr);
    let best = 0;
    for (let d = 0; d <= 2 * near; d++) {
      const ab = corr[d] as number;
      const norm = aa * bb;
      const v = norm > 1e-24 ? ab / Math.sqrt(norm) : 0;
      corr[d] = v;
      if (Math.abs(v) > Math.abs(corr[best] as number)) best = d;
      bb += (attackB[b + d + length] as number) ** 2 - (attackB[b + d] as number) ** 2;
    }
    const v = corr[best] as number;
    let offset = 0;
    if (best > 0 && best < 2 * near) offset = parabolicOffset(corr[best - 1] as number, v, corr[best + 1] as number);
    this.laidLag[to] = lag + best - near + offset;
    this.laidHeight[to] = v;
  }

  /** The winner, the runner-up and the agreement. Real-time safe: yes. */
  finish(): void {
    this.sign = 0;
    this.delay = Number.NaN;
    this.runnerUp = 1;
    this.agree = 0;
    this.members = 0;
    let best = 0;
    let winner = -1;
    for (let c = 0; c < this.candidates; c++) {
      const s = this.score(c);
      if (s > best) {
        best = s;
        winner = c;
      }
    }
    if (winner < 0) return;
    const sign = this.meanHeight(winner) > 0 ? 1 : -1;
    const lag = this.medianLag(winner, sign);
    let second = 0;
    const same = this.tuning.sameSeconds * this.sampleRate;
    for (let c = 0; c < this.candidates; c++) {
      if (c === winner) continue;
      const s = this.meanHeight(c) > 0 ? 1 : -1;
      if (s === sign && Math.abs(this.medianLag(c, s) - lag) < same) continue;
      second = Math.max(second, this.score(c));
    }
    this.runnerUp = second / best;
    this.sign = sign;
    this.delay = lag;
    const within = this.tuning.agreeSeconds * this.sampleRate;
    let n = 0;
    for (let i = 0; i < this.hits; i++) {
      const at = winner * POOL_HITS + i;
      const d = Math.abs((this.hitLag[at] as number) - lag);
      if ((this.hitHeight[at] as number) * sign > 0 && d <= within) this.sorted[n++] = d;
    }
    this.members = n;
    this.agree = this.hits > 0 ? n / this.hits : 0;
    this.spread = median(this.sorted, n);
  }

  /** How many candidates there are; sign of one, and its lag, samples, as most of the hits have it. Real-time safe: yes. */
  get peaks(): number {
    return this.candidates;
  }
  peakSign(c: number): number {
    return this.meanHeight(c) > 0 ? 1 : -1;
  }
  peakLag(c: number): number {
    return this.medianLag(c, this.peakSign(c));
  }

  /** Height of the attacks' curve within ± `near` samples of a delay, with a sign, over its highest anywhere; 0: none. Real-time safe: yes. */
  heightAt(delay: number, sign: number, near: number): number {
    const { curve } = this.curve;
    const at = Math.round(delay) + this.maxLagSamples;
    const wide = Math.round(near);
    let height = 0;
    for (let k = Math.max(0, at - wide); k <= Math.min(curve.length - 1, at + wide); k++)
      height = Math.max(height, sign * (curve[k] as number));
    let top = 0;
    for (let k = 0; k < curve.length; k++) top = Math.max(top, Math.abs(curve[k] as number));
    return top > 0 ? height / top : 0;
  }

  private meanHeight(c: number): number {
    let sum = 0;
    for (let i = 0; i < this.hits; i++) sum += this.hitHeight[c * POOL_HITS + i] as number;
    return this.hits > 0 ? sum / this.hits : 0;
  }

  private score(c: number): number {
    const { priorFloor, priorSeconds } = this.tuning;
    const h = this.meanHeight(c);
    const lag = this.medianLag(c, h > 0 ? 1 : -1);
    const away = Number.isNaN(this.pickLag) ? 0 : (lag - this.pickLag) / (priorSeconds * this.sampleRate);
    return (this.height[c] as number) * Math.abs(h) * (priorFloor + (1 - priorFloor) * Math.exp(-0.5 * away * away));
  }

  private medianLag(c: number, sign: number): number {
    let n = 0;
    for (let i = 0; i < this.hits; i++) {
      const at = c * POOL_HITS + i;
      if ((this.hitHeight[at] as number) * sign > 0) this.sorted[n++] = this.hitLag[at] as number;
    }
    return n > 0 ? median(this.sorted, n) : (this.lag[c] as number);
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.sign = 0;
    this.delay = Number.NaN;
    this.runnerUp = 1;
    this.agree = 0;
    this.members = 0;
    this.candidates = 0;
  }
}
