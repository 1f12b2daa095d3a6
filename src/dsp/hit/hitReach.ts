/**
 * What is read of a hit within one reach (the largest delay looked for): first arrivals, levels, the low end's first pushes,
 * the correlation, the waveforms. One transform a call. What was read is held here until it is written into the HitStore.
 */
import type { Rings } from '../input/inputs';
import type { Gcc } from '../signal/gcc';
import type { Tuning } from '../tuning';
import { Arrival, ArrivalPicker } from './arrival';
import { HitCorrelation } from './hitCorrelation';
import type { HitStore } from './hitStore';
import { HitWaves } from './hitWaves';
import { LowPush, LowPushPicker } from './lowPush';
import { OnsetPairs } from './onsetPairs';
import { Tilt } from './tilt';

export class HitReach {
  /** the reach, and half the length of a curve, samples */
  readonly maxLagSamples: number;
  readonly correlation: HitCorrelation;
  /** the kept hits' waveforms */
  readonly waves: HitWaves;
  /** frames after the trigger that are looked at */
  readonly lookAheadFrames: number;
  /** the earlier first arrival of the hit picked last; the trigger where there is none. Frames */
  anchor = 0;
  /** of the hit picked last: +1: only A heard it, −1: only B, 0: both or none */
  oneSided = 0;
  heardByBoth = false;
  private readonly a = new Arrival();
  private readonly b = new Arrival();
  private readonly lowA = new LowPush();
  private readonly lowB = new LowPush();
  private readonly picker: ArrivalPicker;
  private readonly lowPicker: LowPushPicker;
  private readonly pairs: OnsetPairs;
  private readonly tilt: Tilt;

  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly rings: Rings,
    private readonly tuning: Tuning,
  ) {
    const { hit } = tuning;
    this.maxLagSamples = Math.round((maxLagMs / 1000) * sampleRate);
    this.picker = new ArrivalPicker(sampleRate, maxLagMs, hit.arrival);
    this.lowPicker = new LowPushPicker(sampleRate, maxLagMs, hit.lowPush);
    this.pairs = new OnsetPairs(sampleRate, maxLagMs, rings, hit.onset);
    this.correlation = new HitCorrelation(sampleRate, this.maxLagSamples, rings, hit.correlation);
    this.tilt = new Tilt(sampleRate, this.spectra.size, hit.tilt);
    this.waves = new HitWaves(sampleRate, maxLagMs, rings.pickA, rings.pickB, hit.waves);
    this.lookAheadFrames = Math.max(this.picker.lookAheadFrames, this.correlation.lookAheadFrames);
  }

  /** spectra of the attack loaded last */
  get spectra(): Gcc {
    return this.correlation.gcc;
  }

  /** First arrivals round `trigger`, the spectra of the attack, the waveforms. One transform. Real-time safe: yes. */
  look(slot: number, trigger: number): void {
    const { a, b, rings } = this;
    this.picker.pick(rings.pickA, trigger, a);
    this.picker.pick(rings.pickB, trigger, b);
    const { noiseFactor, leastPeak } = this.tuning.hit.heard;
    const heardA = a.peak >= leastPeak && a.peak > noiseFactor * a.noise;
    const heardB = b.peak >= leastPeak && b.peak > noiseFactor * b.noise;
    this.heardByBoth = heardA && heardB;
    this.oneSided = heardA === heardB ? 0 : heardA ? 1 : -1;
    this.anchor = trigger;
    if (this.found) this.anchor = Math.min(a.frame, b.frame);
    else if (a.found || b.found) this.anchor = a.found ? a.frame : b.frame;
    this.pairs.look(trigger, a, b);
    this.correlation.load(trigger);
    this.waves.keep(slot, trigger);
  }

  /** The loaded hit's curve and its peaks. One transform. Real-time safe: yes. */
  correlate(slot: number): void {
    this.correlation.correlate(slot);
  }

  /** A first arrival in both channels, good or bad. */
  get found(): boolean {
    return this.a.found && this.b.found;
  }

  /** A first arrival in both channels that can be used. */
  get usable(): boolean {
    return this.found && Math.min(this.a.quality, this.b.quality) >= this.usableQuality;
  }

  /** One of the first arrivals lies farther than so many frames from the trigger. */
  beyond(frames: number, trigger: number): boolean {
    return Math.max(Math.abs(this.a.frame - trigger), Math.abs(this.b.frame - trigger)) > frames;
  }

  /** Of the first arrivals, and of the correlation: |delay|, samples. */
  get pickDelay(): number {
    return Math.abs(this.b.frame - this.a.frame);
  }

  get waveDelay(): number {
    return Math.abs(this.correlation.delay);
  }

  /** The correlation has one clear peak. */
  get clear(): boolean {
    return this.tuning.parts.waveform && this.correlation.rival < this.tuning.delay.wave.clearRival;
  }

  /** First arrivals, levels and tilt of the hit that `look` saw last. Real-time safe: yes. */
  write(store: HitStore, slot: number): void {
    const { a, b, spectra } = this;
    store.levelA[slot] = levelDb(a.peak);
    store.levelB[slot] = levelDb(b.peak);
    store.snrDb[slot] = 20 * Math.log10(Math.min(snr(a), snr(b)));
    store.oneSided[slot] = this.oneSided;
    store.arrivalA[slot] = a.found ? a.frame : Number.NaN;
    store.pushA[slot] = a.found ? a.sign : 0;
    store.qualityA[slot] = a.found ? a.quality : 0;
    store.arrivalB[slot] = b.found ? b.frame : Number.NaN;
    store.pushB[slot] = b.found ? b.sign : 0;
    store.qualityB[slot] = b.found ? b.quality : 0;
    store.noiseBound[slot] = (a.noiseBound ? 1 : 0) | (b.noiseBound ? 2 : 0);
    const both = this.found;
    store.pickDelay[slot] = both ? b.frame - a.frame : Number.NaN;
    store.pickSign[slot] = both ? a.sign * b.sign : 0;
    store.pickQuality[slot] = both ? Math.min(a.quality, b.quality) : 0;
    store.pickHidden[slot] = both && (a.noiseBound || b.noiseBound) ? 1 : 0;
    store.riseDifference[slot] = both ? b.riseFrames - a.riseFrames : 0;
    store.anchor[slot] = this.anchor;
    store.tiltA[slot] = this.tilt.of(spectra.aRe, spectra.aIm);
    store.tiltB[slot] = this.tilt.of(spectra.bRe, spectra.bIm);
    this.pairs.write(store, slot, a, b);
  }

  /** First pushes of the low end, of the hit that `look` saw last. Real-time safe: yes. */
  writeLow(store: HitStore, slot: number): void {
    if (!this.tuning.parts.lowPush) return;
    const { lowA: a, lowB: b, rings } = this;
    const trigger = store.trigger[slot] as number;
    this.lowPicker.pick(rings.pickA, rings.attackA, trigger, this.onset(this.a), a);
    this.lowPicker.pick(rings.pickB, rings.attackB, trigger, this.onset(this.b), b);
    store.highLed[slot] = a.highLed || b.highLed ? 1 : 0;
    const both = a.found && b.found;
    store.lowDelay[slot] = both ? b.frame - a.frame : Number.NaN;
    store.lowSign[slot] = both ? a.sign * b.sign : 0;
    store.lowAlone[slot] = both && a.alone && b.alone && a.first && b.first ? 1 : 0;
  }

  /** The correlation's peak, of the hit that `correlate` saw last. Real-time safe: yes. */
  writeWave(store: HitStore, slot: number): void {
    const { delay, sign, rival } = this.correlation;
    store.waveDelay[slot] = delay;
    store.waveSign[slot] = sign;
    store.waveRival[slot] = rival;
  }

  /** Where a channel begins, if that stands out of what is before it. */
  private onset(x: Arrival): number {
    return x.found && x.quality >= this.usableQuality ? x.frame : Number.NaN;
  }

  private get usableQuality(): number {
    return this.tuning.hit.arrival.usableQuality;
  }
}

const levelDb = (peak: number): number => (peak > 0 ? 20 * Math.log10(peak) : Number.NaN);
const snr = (x: Arrival): number => Math.max(1e-6, x.peak / Math.max(x.noise, 1e-9));
