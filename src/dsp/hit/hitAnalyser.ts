/**
 * The work of a hit, in pieces of at most one transform: first arrivals and the waveform's correlation as soon as the
 * look-ahead has come in, then the sum's spectra. Results go into the HitStore.
 */

import { FATE } from '../../reading/codes';
import { AttackFit } from '../delay/attackFit';
import type { Rings } from '../input/inputs';
import { CLIP_RUN, FULL_SCALE } from '../input/levels';
import { Gcc, parabolicOffset } from '../signal/gcc';
import { fadeWindow } from '../signal/windows';
import { Arrival, ArrivalPicker, USABLE_QUALITY } from './arrival';
import { FINGERPRINT, Fingerprints } from './fingerprint';
import { type HitStore, STORED_HITS } from './hitStore';
import { HitWaves } from './hitWaves';
import { LowPush, LowPushPicker } from './lowPush';
import { SumAnalyser } from './sumAnalyser';

export type WorkDone = 'nothing' | 'part' | 'arrival' | 'sum';

const WAVE_BEFORE_SECONDS = 0.004;
/** beyond the largest lag */
const WAVE_AFTER_LAG_SECONDS = 0.003;
const FADE_IN_SECONDS = 0.001;
const FADE_OUT_SHARE = 0.3;
const CLIPS_KEPT = 64;
const CLIP_AFTER_SECONDS = 0.014;
/** a channel has heard the hit when it stands this far over the noise before */
const HEARD = 3;
const HEARD_PEAK = 1e-4;

const JOBS = 8;

class ClipLog {
  private readonly at = new Float64Array(CLIPS_KEPT).fill(-1);
  private next = 0;
  private run = 0;

  /** n samples from `frame` on; no call that takes a sample: see LevelMeter.run */
  note(x: Float64Array, frame: number, n: number): void {
    for (let i = 0; i < n; i++) {
      const v = x[i] as number;
      this.run = v >= FULL_SCALE || v <= -FULL_SCALE ? this.run + 1 : 0;
      if (this.run !== CLIP_RUN) continue;
      this.at[this.next] = frame + i;
      this.next = (this.next + 1) % CLIPS_KEPT;
    }
  }

  within(from: number, to: number): boolean {
    for (let i = 0; i < CLIPS_KEPT; i++)
      if ((this.at[i] as number) >= from && (this.at[i] as number) <= to) return true;
    return false;
  }
}

export class HitAnalyser {
  /** half-length of a curve, samples */
  readonly maxLagSamples: number;
  /** curves of the kept hits, slot after slot */
  readonly curves: Float32Array;
  readonly curveLength: number;
  private readonly picker: ArrivalPicker;
  private readonly gcc: Gcc;
  private readonly sum: SumAnalyser;
  /** the second witness; the engine drives it hit by hit */
  readonly fit: AttackFit;
  /** the kept hits' waveforms */
  readonly waves: HitWaves;
  private readonly a = new Arrival();
  private readonly b = new Arrival();
  private readonly lowPicker: LowPushPicker;
  private readonly lowA = new LowPush();
  private readonly lowB = new LowPush();
  private readonly prints: Fingerprints;
  private readonly waveBefore: number;
  private readonly waveLength: number;
  private readonly window: Float64Array;
  private readonly arrivalReady: number;
  private readonly clipAfter: number;
  private readonly clipsA = new ClipLog();
  private readonly clipsB = new ClipLog();
  private frame = 0;
  /** serials of the hits under way, oldest first, and the stage each has reached */
  private readonly jobs = new Float64Array(JOBS);
  private readonly stages = new Uint8Array(JOBS);
  private jobCount = 0;
  /** serial of the hit whose arrival, respectively sum, was worked out last */
  arrived = 0;
  summed = 0;
  private readonly tiltBins: { lowFrom: number; lowTo: number; highFrom: number; highTo: number };

  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly store: HitStore,
    private readonly rings: Rings,
  ) {
    this.maxLagSamples = Math.round((maxLagMs / 1000) * sampleRate);
    this.picker = new ArrivalPicker(sampleRate, maxLagMs);
    this.lowPicker = new LowPushPicker(sampleRate, maxLagMs);
    this.waveBefore = Math.round(WAVE_BEFORE_SECONDS * sampleRate);
    this.waveLength = this.waveBefore + this.maxLagSamples + Math.round(WAVE_AFTER_LAG_SECONDS * sampleRate);
    const size = 2 ** Math.ceil(Math.log2(this.waveLength + this.maxLagSamples));
    this.gcc = new Gcc(sampleRate, size, {
      lowHz: 100,
      highHz: 8000,
      beta: 0.5,
      maxLagSamples: this.maxLagSamples,
    });
    this.prints = new Fingerprints(sampleRate, size);
    this.fit = new AttackFit(sampleRate, this.maxLagSamples, size, rings.attackA, rings.attackB);
    this.waves = new HitWaves(sampleRate, maxLagMs, rings.pickA, rings.pickB);
    this.window = fadeWindow(this.waveLength, {
      fadeIn: Math.round(FADE_IN_SECONDS * sampleRate),
      fadeOut: Math.round(FADE_OUT_SHARE * this.waveLength),
      at: 0,
    });
    this.curveLength = this.gcc.curve.length;
    this.curves = new Float32Array(STORED_HITS * this.curveLength);
    this.sum = new SumAnalyser(sampleRate);
    this.arrivalReady = Math.max(this.picker.lookAheadFrames, this.waveLength - this.waveBefore);
    this.clipAfter = Math.round(CLIP_AFTER_SECONDS * sampleRate);
    const bin = (hz: number): number => Math.max(1, Math.min(size / 2 - 1, Math.round((hz * size) / sampleRate)));
    this.tiltBins = { lowFrom: bin(40), lowTo: bin(250), highFrom: bin(2000), highTo: bin(12000) };
  }

  /** n raw frames of each channel, for the clip log; how much later the rings hold them. Real-time safe: yes. */
  noteClips(a: Float64Array, b: Float64Array, n: number, lateA: number, lateB: number): void {
    this.clipsA.note(a, this.frame + lateA, n);
    this.clipsB.note(b, this.frame + lateB, n);
    this.frame += n;
  }

  /** A hit begins at `trigger`. With too many under way it is let go. Real-time safe: yes. */
  add(trigger: number): void {
    if (this.jobCount === JOBS) return;
    this.waves.forget(this.store.add(trigger));
    this.jobs[this.jobCount] = this.store.count;
    this.stages[this.jobCount] = 0;
    this.jobCount++;
  }

  /** A hit begins while the one before is still being read: it is counted, and left alone. Real-time safe: yes. */
  addTooSoon(frame: number): void {
    this.store.fate[this.store.add(frame)] = FATE['too-soon'];
  }

  /** One unit of work that is ready with `frames` pushed; arrivals come before sums. Real-time safe: yes. */
  work(frames: number): WorkDone {
    for (let j = 0; j < this.jobCount; j++) {
      if ((this.stages[j] as number) > 2) continue;
      const slot = this.store.slot(this.jobs[j] as number);
      if (frames < (this.store.trigger[slot] as number) + this.arrivalReady) break;
      if (this.stages[j] === 0) {
        this.pick(slot);
        this.stages[j] = 1;
        return 'part';
      }
      if (this.stages[j] === 1) {
        this.pickLow(slot);
        this.stages[j] = 2;
        return 'part';
      }
      this.correlate(slot);
      this.stages[j] = 3;
      this.arrived = this.jobs[j] as number;
      return 'arrival';
    }
    if (this.jobCount === 0) return 'nothing';
    const slot = this.store.slot(this.jobs[0] as number);
    const stage = this.stages[0] as number;
    if (stage < 3 || frames < (this.store.anchor[slot] as number) + this.sum.lookAheadFrames + 1) return 'nothing';
    this.sum.load(this.rings.rawA, this.rings.rawB, this.store.anchor[slot] as number, stage === 4);
    this.sum.transform();
    if (stage === 3) {
      this.sum.storeHit(this.store, slot);
      this.stages[0] = 4;
      return 'part';
    }
    this.sum.storeNoise(this.store, slot);
    this.store.hasSum[slot] = 1;
    this.summed = this.jobs[0] as number;
    for (let j = 1; j < this.jobCount; j++) {
      this.jobs[j - 1] = this.jobs[j] as number;
      this.stages[j - 1] = this.stages[j] as number;
    }
    this.jobCount--;
    return 'sum';
  }

  /** First arrivals, levels, and the spectra of the attack. */
  private pick(slot: number): void {
    const store = this.store;
    const trigger = store.trigger[slot] as number;
    const { a, b } = this;
    this.picker.pick(this.rings.pickA, trigger, a);
    this.picker.pick(this.rings.pickB, trigger, b);
    store.levelA[slot] = levelDb(a.peak);
    store.levelB[slot] = levelDb(b.peak);
    store.snrDb[slot] = 20 * Math.log10(Math.min(snr(a), snr(b)));
    const heardA = a.peak >= HEARD_PEAK && a.peak > HEARD * a.noise;
    const heardB = b.peak >= HEARD_PEAK && b.peak > HEARD * b.noise;
    store.oneSided[slot] = heardA === heardB ? 0 : heardA ? 1 : -1;
    if (a.found) {
      store.arrivalA[slot] = a.frame;
      store.pushA[slot] = a.sign;
      store.qualityA[slot] = a.quality;
    }
    if (b.found) {
      store.arrivalB[slot] = b.frame;
      store.pushB[slot] = b.sign;
      store.qualityB[slot] = b.quality;
    }
    store.noiseBound[slot] = (a.noiseBound ? 1 : 0) | (b.noiseBound ? 2 : 0);
    if (a.found && b.found) {
      store.pickDelay[slot] = b.frame - a.frame;
      store.pickSign[slot] = a.sign * b.sign;
      store.pickQuality[slot] = Math.min(a.quality, b.quality);
      store.pickHidden[slot] = a.noiseBound || b.noiseBound ? 1 : 0;
      store.riseDifference[slot] = b.riseFrames - a.riseFrames;
      store.anchor[slot] = Math.min(a.frame, b.frame);
    } else if (a.found) store.anchor[slot] = a.frame;
    else if (b.found) store.anchor[slot] = b.frame;
    const at = store.anchor[slot] as number;
    const clipA = this.clipsA.within(at - 2, at + this.clipAfter);
    const clipB = this.clipsB.within(at - 2, at + this.clipAfter);
    store.clipped[slot] = (clipA ? 1 : 0) | (clipB ? 2 : 0);

    const g = this.gcc;
    g.frameA.fill(0);
    g.frameB.fill(0);
    const from = trigger - this.waveBefore;
    for (let i = 0; i < this.waveLength; i++) {
      const w = this.window[i] as number;
      g.frameA[i] = w * this.rings.waveA.at(from + i);
      g.frameB[i] = w * this.rings.waveB.at(from + i);
    }
    g.forward();
    store.tiltA[slot] = this.tilt(g.aRe, g.aIm);
    store.tiltB[slot] = this.tilt(g.bRe, g.bIm);
    this.prints.write(g, store.print, slot * FINGERPRINT);
    this.fit.keep(slot, g, at);
    this.waves.keep(slot, trigger);
  }

  /** First pushes of the low end. The stage before has just picked the same hit. */
  private pickLow(slot: number): void {
    const { store, lowA: a, lowB: b, rings } = this;
    const trigger = store.trigger[slot] as number;
    this.lowPicker.pick(rings.pickA, rings.attackA, trigger, onset(this.a), a);
    this.lowPicker.pick(rings.pickB, rings.attackB, trigger, onset(this.b), b);
    store.highLed[slot] = a.highLed || b.highLed ? 1 : 0;
    if (!a.found || !b.found) return;
    store.lowDelay[slot] = b.frame - a.frame;
    store.lowSign[slot] = a.sign * b.sign;
    store.lowAlone[slot] = a.alone && b.alone && a.first && b.first ? 1 : 0;
  }

  /** Low end over attack, dB. */
  private tilt(re: Float64Array, im: Float64Array): number {
    const t = this.tiltBins;
    let low = 1e-30;
    let high = 1e-30;
    for (let k = t.lowFrom; k <= t.lowTo; k++) low += (re[k] as number) ** 2 + (im[k] as number) ** 2;
    for (let k = t.highFrom; k <= t.highTo; k++) high += (re[k] as number) ** 2 + (im[k] as number) ** 2;
    return 10 * Math.log10(low / high);
  }

  /** The curve, its highest peak and the highest one of opposite sign. */
  private correlate(slot: number): void {
    const g = this.gcc;
    g.correlate();
    const c = g.curve;
    const n = c.length;
    let up = 0;
    let down = 0;
    const base = slot * n;
    for (let i = 0; i < n; i++) {
      const v = c[i] as number;
      this.curves[base + i] = v;
      if (v > (c[up] as number)) up = i;
      if (v < (c[down] as number)) down = i;
    }
    const high = c[up] as number;
    const low = -(c[down] as number);
    const sign = high >= low ? 1 : -1;
    const at = sign > 0 ? up : down;
    const store = this.store;
    if (at > 0 && at < n - 1 && Math.max(high, low) > 0) {
      const offset = parabolicOffset(c[at - 1] as number, c[at] as number, c[at + 1] as number);
      store.waveDelay[slot] = at - g.maxLagSamples + offset;
      store.waveSign[slot] = sign;
      store.waveRival[slot] = Math.min(high, low) / Math.max(high, low);
    }
    store.hasArrival[slot] = 1;
  }

  /** Forget what is under way; the kept hits' waveforms stay to be looked at. Real-time safe: yes. */
  clear(): void {
    this.jobCount = 0;
    this.fit.clear();
  }
}

const levelDb = (peak: number): number => (peak > 0 ? 20 * Math.log10(peak) : Number.NaN);
const snr = (x: Arrival): number => Math.max(1e-6, x.peak / Math.max(x.noise, 1e-9));
/** Where a channel begins, if that stands out of what is before it. */
const onset = (x: Arrival): number => (x.found && x.quality >= USABLE_QUALITY ? x.frame : Number.NaN);
