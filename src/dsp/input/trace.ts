/**
 * The running zero-lag correlation, broadband and per band, for the trace. It has a value only while both channels
 * stand 10 dB over their own noise between hits: hum and wash in a pause are not a reading.
 * Integration: exponential; its equivalent length T makes unrelated inputs scatter by 1/√(2BT) ≤ 0.1 (no standard fixes
 * a correlation meter's integration time; this is the project's choice). Formula: after Bendat & Piersol, Random Data
 * (looked for, not seen); tests/reference/figures.py counts the scatter on noise and agrees within 4 %.
 */

import { BAND_COUNT, BANDS } from '../../reading/bands';
import { BandPair } from '../signal/bandPair';
import { INPUT, type TraceTuning } from '../tuning/inputTuning';

/** the trace's broadband */
export const BROAD_LOW_HZ = 30;
export const BROAD_HIGH_HZ = 10000;

/** Equivalent integration time of a band, s. */
export function integrationSeconds(lowHz: number, highHz: number, tuning: TraceTuning = INPUT.trace): number {
  const { scatter, shortestSeconds } = tuning;
  return Math.max(shortestSeconds, 1 / (2 * (highHz - lowHz) * scatter * scatter));
}

/** Standard deviation of the correlation of unrelated inputs over `seconds`: half-height of the zone round zero. */
export function scatterOfUnrelated(lowHz: number, highHz: number, seconds: number): number {
  return 1 / Math.sqrt(2 * (highHz - lowHz) * seconds);
}

/** The quietest recent stretch of a smoothed power. */
class NoiseFloor {
  private readonly slots: Float64Array;
  private at = 0;
  private n = 0;
  private least = Number.POSITIVE_INFINITY;
  value = Number.POSITIVE_INFINITY;

  /** @param slots stretches that are looked back at */
  constructor(slots: number) {
    this.slots = new Float64Array(slots).fill(Number.POSITIVE_INFINITY);
  }

  step(power: number, frames: number, slotFrames: number): void {
    if (power < this.least) this.least = power;
    if (this.least < this.value) this.value = this.least;
    this.n += frames;
    if (this.n < slotFrames) return;
    this.slots[this.at] = this.least;
    this.at = (this.at + 1) % this.slots.length;
    this.least = Number.POSITIVE_INFINITY;
    this.n = 0;
    let m = Number.POSITIVE_INFINITY;
    for (let i = 0; i < this.slots.length; i++) m = Math.min(m, this.slots[i] as number);
    this.value = m;
  }

  clear(): void {
    this.slots.fill(Number.POSITIVE_INFINITY);
    this.n = 0;
    this.least = Number.POSITIVE_INFINITY;
    this.value = Number.POSITIVE_INFINITY;
  }
}

class BandCorrelator {
  private readonly band: BandPair;
  private readonly share: number;
  private readonly slotFrames: number;
  private readonly settleFrames: number;
  private readonly floorA: NoiseFloor;
  private readonly floorB: NoiseFloor;
  private readonly gate: number;
  private readonly floorPower: number;
  private seen = 0;
  private aa = 0;
  private bb = 0;
  private ab = 0;

  /** @param inA @param inB room for what the band lets through */
  constructor(
    sampleRate: number,
    lowHz: number,
    highHz: number,
    private readonly inA: Float64Array,
    private readonly inB: Float64Array,
    tuning: TraceTuning,
  ) {
    this.band = new BandPair(sampleRate, lowHz, Math.min(highHz, 0.45 * sampleRate));
    // an exponential window of time constant τ is worth a rectangular one of 2τ
    const seconds = integrationSeconds(lowHz, highHz, tuning);
    this.share = 1 - Math.exp(-2 / (seconds * sampleRate));
    this.floorA = new NoiseFloor(tuning.floorSlots);
    this.floorB = new NoiseFloor(tuning.floorSlots);
    this.gate = 10 ** (tuning.gateDb / 10);
    this.floorPower = tuning.floorPower;
    this.slotFrames = Math.round(tuning.floorSlotSeconds * sampleRate);
    this.settleFrames = Math.round(seconds * sampleRate);
  }

  run(a: Float64Array, b: Float64Array, n: number): void {
    const { inA, inB, share } = this;
    this.band.run(a, b, inA, inB, n);
    let { aa, bb, ab } = this;
    for (let i = 0; i < n; i++) {
      const u = inA[i] as number;
      const v = inB[i] as number;
      aa += (u * u - aa) * share;
      bb += (v * v - bb) * share;
      ab += (u * v - ab) * share;
    }
    this.aa = aa;
    this.bb = bb;
    this.ab = ab;
    this.seen += n;
    if (this.seen < this.settleFrames) return;
    // the powers change slowly: once a block is enough for their floor
    this.floorA.step(aa, n, this.slotFrames);
    this.floorB.step(bb, n, this.slotFrames);
  }

  /** out[at] = ±1 times −1…+1, or NaN without signal. Put, not returned: forty times a second a fraction would be an object. */
  put(out: Float64Array, at: number, flip: number): void {
    const { aa, bb } = this;
    const heard =
      this.seen >= this.settleFrames &&
      aa > this.gate * Math.max(this.floorA.value, this.floorPower) &&
      bb > this.gate * Math.max(this.floorB.value, this.floorPower);
    if (heard) out[at] = flip * Math.max(-1, Math.min(1, this.ab / Math.sqrt(aa * bb)));
    else out[at] = Number.NaN;
  }

  clear(): void {
    this.band.clear();
    this.floorA.clear();
    this.floorB.clear();
    this.seen = 0;
    this.aa = 0;
    this.bb = 0;
    this.ab = 0;
  }
}

export class Trace {
  private readonly broad: BandCorrelator;
  private readonly bands: BandCorrelator[];

  /** @param stepFrames frames of a run at most */
  constructor(sampleRate: number, stepFrames: number, tuning: TraceTuning = INPUT.trace) {
    const inA = new Float64Array(stepFrames);
    const inB = new Float64Array(stepFrames);
    this.broad = new BandCorrelator(sampleRate, BROAD_LOW_HZ, BROAD_HIGH_HZ, inA, inB, tuning);
    this.bands = BANDS.map((b) => new BandCorrelator(sampleRate, b.lowHz, b.highHz, inA, inB, tuning));
  }

  /** A block. Real-time safe: yes. */
  run(a: Float64Array, b: Float64Array, n: number): void {
    this.broad.run(a, b, n);
    for (let i = 0; i < BAND_COUNT; i++) (this.bands[i] as BandCorrelator).run(a, b, n);
  }

  /**
   * −1…+1, NaN: no value; times `flip`, ±1. Real-time safe: yes.
   * @param at where the broadband value goes; @param bandsAt where those of BANDS begin
   */
  write(out: Float64Array, at: number, bandsAt: number, flip: number): void {
    this.broad.put(out, at, flip);
    for (let i = 0; i < BAND_COUNT; i++) (this.bands[i] as BandCorrelator).put(out, bandsAt + i, flip);
  }

  clear(): void {
    this.broad.clear();
    for (const b of this.bands) b.clear();
  }
}
