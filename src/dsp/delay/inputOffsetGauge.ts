/**
 * Measures the offset between two inputs that are fed the same source: for each hit the waveform's delay alone, no first
 * arrivals. The coarse lag is the hit's own GCC peak; both stretches are then cut at their own beginnings and the
 * rest is found on the spectrum, where an interpolation's bias does not exist (see Gcc.refine).
 */

import { POOL_HITS } from '../../reading/limits';
import type { HitStore } from '../hit/hitStore';
import { Gcc } from '../signal/gcc';
import { median } from '../signal/median';
import { Mode, ModeFinder } from '../signal/modeFinder';
import type { Ring } from '../signal/ring';
import { fadeWindow } from '../signal/windows';
import { TUNING, type Tuning } from '../tuning';
import type { InputOffsetTuning } from '../tuning/estimateTuning';

export class InputOffsetGauge {
  /** hits taken in, at most the newest 16 */
  hits = 0;
  /** what most of them say: members, delay of B's path and median deviation in samples, ±1, median height of the peak 0…1 */
  readonly says = new Mode();
  height = Number.NaN;
  private readonly gcc: Gcc;
  private readonly window: Float64Array;
  private readonly before: number;
  private readonly mode: ModeFinder;
  private readonly tuning: InputOffsetTuning;
  /** the newest hits, oldest first */
  private readonly delays = new Float64Array(POOL_HITS);
  private readonly signs = new Float64Array(POOL_HITS);
  private readonly heights = new Float64Array(POOL_HITS);
  private readonly sorted = new Float64Array(POOL_HITS);
  private taken = 0;

  constructor(
    sampleRate: number,
    private readonly store: HitStore,
    private readonly a: Ring,
    private readonly b: Ring,
    { delay }: Pick<Tuning, 'delay'> = TUNING,
  ) {
    const tuning = delay.inputOffset;
    this.tuning = tuning;
    const frames = (seconds: number): number => Math.round(seconds * sampleRate);
    this.before = frames(tuning.beforeSeconds);
    this.window = fadeWindow(this.before + frames(tuning.afterSeconds), {
      fadeIn: frames(tuning.fadeInSeconds),
      fadeOut: frames(tuning.fadeOutSeconds),
      asShare: true,
    });
    const size = 2 ** Math.ceil(Math.log2(2 * this.window.length));
    const { lowHz, highHz, beta } = tuning;
    this.gcc = new Gcc(sampleRate, size, { lowHz, highHz, beta, maxLagSamples: 1 });
    this.mode = new ModeFinder(delay.mode.withinSeconds * sampleRate, delay.mode.newestHits, POOL_HITS);
  }

  /** Take in the next hit whose arrival is known: one transform. Real-time safe: yes. @returns false when there is none */
  work(frames: number): boolean {
    const { store } = this;
    if (this.taken >= store.count) return false;
    // those that are gone are passed over
    let i = store.kept - 1;
    while (i > 0 && (store.serial[store.at(i - 1)] as number) > this.taken) i--;
    const s = store.at(i);
    const serial = store.serial[s] as number;
    if (!store.hasArrival[s]) return false;
    const coarse = store.waveDelay[s] as number;
    const clear =
      (store.waveRival[s] as number) < this.tuning.clearRival &&
      store.clipped[s] === 0 &&
      store.oneSided[s] === 0 &&
      store.dropped[s] === 0;
    if (!clear) {
      this.note(Number.NaN, 0, 0);
    } else {
      const lag = Math.round(coarse);
      // the trigger is where the earlier of the two begins
      const from = (store.trigger[s] as number) + Math.max(0, -lag) - this.before;
      if (frames < from + Math.max(0, lag) + this.window.length) return false;
      this.measure(from, lag, store.waveSign[s] as number);
    }
    this.taken = serial;
    this.judge();
    return true;
  }

  private measure(from: number, lag: number, sign: number): void {
    const { gcc, window } = this;
    gcc.frameA.fill(0);
    gcc.frameB.fill(0);
    for (let i = 0; i < window.length; i++) {
      const w = window[i] as number;
      gcc.frameA[i] = w * this.a.at(from + i);
      gcc.frameB[i] = w * this.b.at(from + lag + i);
    }
    gcc.forward();
    const rest = gcc.refine(0, sign);
    if (Math.abs(rest) <= this.tuning.refinedWithinSamples) this.note(lag + rest, sign, sign * gcc.heightAt(rest));
    else this.note(Number.NaN, 0, 0);
  }

  private note(delay: number, sign: number, height: number): void {
    if (this.hits === POOL_HITS) {
      this.delays.copyWithin(0, 1);
      this.signs.copyWithin(0, 1);
      this.heights.copyWithin(0, 1);
    } else this.hits++;
    this.delays[this.hits - 1] = delay;
    this.signs[this.hits - 1] = sign;
    this.heights[this.hits - 1] = height;
  }

  private judge(): void {
    const { mode } = this;
    for (let i = 0; i < this.hits; i++) {
      mode.weight[i] = this.signs[i] === 0 ? 0 : 1;
      mode.value[i] = this.delays[i] as number;
      mode.sign[i] = this.signs[i] as number;
    }
    mode.find(this.hits, this.says);
    let members = 0;
    for (let i = 0; i < this.hits; i++) if (mode.member[i]) this.sorted[members++] = this.heights[i] as number;
    this.height = median(this.sorted, members);
  }

  /** The hits from this serial on count no more. Real-time safe: yes. */
  forgetFrom(serial: number): void {
    const gone = Math.min(this.hits, this.taken - serial + 1);
    if (gone <= 0) return;
    this.hits -= gone;
    this.judge();
  }

  /** Forget every hit. Real-time safe: yes. */
  clear(): void {
    this.hits = 0;
    this.taken = 0;
    this.height = Number.NaN;
    this.says.none();
  }
}
