/**
 * The work of a hit, in pieces of at most one transform: first arrivals and the waveform's correlation as soon as the
 * look-ahead has come in, then the sum's spectra. Results go into the HitStore.
 */

import { NEAR_HALF_POINTS, nearStep } from '../../reading/bands';
import { FATE } from '../../reading/codes';
import type { Rings } from '../input/inputs';
import type { Gcc } from '../signal/gcc';
import { TUNING, type Tuning } from '../tuning';
import { Arrival, ArrivalPicker } from './arrival';
import { ClipLog } from './clipLog';
import { FINGERPRINT, Fingerprints } from './fingerprint';
import { HitCorrelation } from './hitCorrelation';
import { CORRELATE, HitQueue, PICK, PICK_LOW, SUM } from './hitQueue';
import { HitSpectra } from './hitSpectra';
import type { HitStore } from './hitStore';
import { HitWaves } from './hitWaves';
import { LowPush, LowPushPicker } from './lowPush';
import type { SumLags } from './sumLags';
import { Tilt } from './tilt';

/** What a call of `work` has done: `attack`: a hit's first arrivals and its attack's spectra are there, for this call only */
export type WorkDone = 'nothing' | 'attack' | 'part' | 'arrival' | 'sum';

export class HitAnalyser {
  /** half-length of a curve, samples */
  readonly maxLagSamples: number;
  /** curves of the kept hits, slot after slot */
  readonly curves: Float32Array;
  readonly curveLength: number;
  /** spectra of the attack worked out last; length of their transform: `spectra.size` */
  readonly spectra: Gcc;
  /** what A and B of the kept hits have in common at each lag, in frames of `lagFactor` samples */
  readonly lags: SumLags;
  readonly lagFactor: number;
  /** the kept hits' waveforms */
  readonly waves: HitWaves;
  /** slot of the hit whose attack, and serial of the one whose arrival, respectively sum, was worked out last */
  attacked = 0;
  arrived = 0;
  summed = 0;
  private readonly queue = new HitQueue();
  private readonly picker: ArrivalPicker;
  private readonly lowPicker: LowPushPicker;
  private readonly correlation: HitCorrelation;
  private readonly sum: HitSpectra;
  private readonly prints: Fingerprints;
  private readonly tilt: Tilt;
  private readonly a = new Arrival();
  private readonly b = new Arrival();
  private readonly lowA = new LowPush();
  private readonly lowB = new LowPush();
  private readonly lookAhead: number;
  private readonly clipAfter: number;
  private readonly clipsA: ClipLog;
  private readonly clipsB: ClipLog;
  private frame = 0;

  constructor(
    sampleRate: number,
    maxLagMs: number,
    private readonly store: HitStore,
    private readonly rings: Rings,
    private readonly tuning: Tuning = TUNING,
  ) {
    const { hit, input } = tuning;
    this.maxLagSamples = Math.round((maxLagMs / 1000) * sampleRate);
    this.picker = new ArrivalPicker(sampleRate, maxLagMs, hit.arrival);
    this.lowPicker = new LowPushPicker(sampleRate, maxLagMs, hit.lowPush);
    this.correlation = new HitCorrelation(sampleRate, this.maxLagSamples, store, rings, hit.correlation);
    this.spectra = this.correlation.gcc;
    this.curves = this.correlation.curves;
    this.curveLength = this.correlation.curveLength;
    this.prints = new Fingerprints(sampleRate, this.spectra.size, hit.fingerprint);
    this.tilt = new Tilt(sampleRate, this.spectra.size, hit.tilt);
    this.waves = new HitWaves(sampleRate, maxLagMs, rings.pickA, rings.pickB, hit.waves);
    this.sum = new HitSpectra(sampleRate, hit.spectra, this.maxLagSamples + NEAR_HALF_POINTS * nearStep(sampleRate));
    this.lags = this.sum.lags;
    this.lagFactor = this.sum.factor;
    this.lookAhead = Math.max(this.picker.lookAheadFrames, this.correlation.lookAheadFrames);
    this.clipAfter = Math.round(hit.heard.clipAfterSeconds * sampleRate);
    this.clipsA = new ClipLog(input.clip);
    this.clipsB = new ClipLog(input.clip);
  }

  /** n raw frames of each channel, for the clip log; how much later the rings hold them. Real-time safe: yes. */
  noteClips(a: Float64Array, b: Float64Array, n: number, lateA: number, lateB: number): void {
    this.clipsA.note(a, this.frame + lateA, n);
    this.clipsB.note(b, this.frame + lateB, n);
    this.frame += n;
  }

  /** A hit begins at `trigger`. With too many under way it is let go. Real-time safe: yes. */
  add(trigger: number): void {
    if (this.queue.full) return;
    this.waves.forget(this.store.add(trigger));
    this.queue.add(this.store.count);
  }

  /** A hit begins while the one before is still being read: it is counted, and left alone. Real-time safe: yes. */
  addTooSoon(frame: number): void {
    this.store.fate[this.store.add(frame)] = FATE['too-soon'];
  }

  /** One unit of work that is ready with `frames` pushed; arrivals come before sums. Real-time safe: yes. */
  work(frames: number): WorkDone {
    const { queue, store } = this;
    for (let j = 0; j < queue.count; j++) {
      const stage = queue.stage(j);
      if (stage > CORRELATE) continue;
      const slot = store.slot(queue.serial(j));
      if (frames < (store.trigger[slot] as number) + this.lookAhead) break;
      queue.advance(j);
      if (stage === PICK) {
        this.pick(slot);
        this.attacked = slot;
        return 'attack';
      }
      if (stage === PICK_LOW) {
        this.pickLow(slot);
        return 'part';
      }
      this.correlation.correlate(slot);
      store.hasArrival[slot] = 1;
      this.arrived = queue.serial(j);
      return 'arrival';
    }
    return queue.count > 0 ? this.workOnSum(frames) : 'nothing';
  }

  /** The sum's spectra of the oldest hit, what they have in common at each lag, then the noise before it. */
  private workOnSum(frames: number): WorkDone {
    const { queue, store, sum, rings } = this;
    const serial = queue.serial(0);
    const slot = store.slot(serial);
    const stage = queue.stage(0);
    const anchor = store.anchor[slot] as number;
    if (stage < SUM || frames < anchor + sum.lookAheadFrames + 1) return 'nothing';
    const lagRound = stage - SUM - 1;
    if (lagRound >= 0 && lagRound < sum.lags.works) {
      sum.storeLags(lagRound, slot);
      queue.advance(0);
      return 'part';
    }
    if (!sum.load(rings.rawA, rings.rawB, anchor, stage !== SUM)) return 'part';
    sum.transform();
    if (stage === SUM) {
      sum.storeHit(store, slot);
      queue.advance(0);
      return 'part';
    }
    sum.storeNoise(store, slot);
    store.hasSum[slot] = 1;
    this.summed = serial;
    queue.shift();
    return 'sum';
  }

  /** First arrivals, levels, and the spectra of the attack. */
  private pick(slot: number): void {
    const { store, a, b } = this;
    const trigger = store.trigger[slot] as number;
    this.picker.pick(this.rings.pickA, trigger, a);
    this.picker.pick(this.rings.pickB, trigger, b);
    store.levelA[slot] = levelDb(a.peak);
    store.levelB[slot] = levelDb(b.peak);
    store.snrDb[slot] = 20 * Math.log10(Math.min(snr(a), snr(b)));
    const { noiseFactor, leastPeak } = this.tuning.hit.heard;
    const heardA = a.peak >= leastPeak && a.peak > noiseFactor * a.noise;
    const heardB = b.peak >= leastPeak && b.peak > noiseFactor * b.noise;
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

    const g = this.spectra;
    this.correlation.load(trigger);
    store.tiltA[slot] = this.tilt.of(g.aRe, g.aIm);
    store.tiltB[slot] = this.tilt.of(g.bRe, g.bIm);
    this.prints.write(g, store.print, slot * FINGERPRINT);
    this.waves.keep(slot, trigger);
  }

  /** First pushes of the low end. The stage before has just picked the same hit. */
  private pickLow(slot: number): void {
    if (!this.tuning.parts.lowPush) return;
    const { store, lowA: a, lowB: b, rings } = this;
    const trigger = store.trigger[slot] as number;
    this.lowPicker.pick(rings.pickA, rings.attackA, trigger, this.onset(this.a), a);
    this.lowPicker.pick(rings.pickB, rings.attackB, trigger, this.onset(this.b), b);
    store.highLed[slot] = a.highLed || b.highLed ? 1 : 0;
    if (!a.found || !b.found) return;
    store.lowDelay[slot] = b.frame - a.frame;
    store.lowSign[slot] = a.sign * b.sign;
    store.lowAlone[slot] = a.alone && b.alone && a.first && b.first ? 1 : 0;
  }

  /** Where a channel begins, if that stands out of what is before it. */
  private onset(x: Arrival): number {
    return x.found && x.quality >= this.tuning.hit.arrival.usableQuality ? x.frame : Number.NaN;
  }

  /** Forget what is under way; the kept hits' waveforms stay to be looked at. Real-time safe: yes. */
  clear(): void {
    this.queue.clear();
    this.sum.clear();
  }
}

const levelDb = (peak: number): number => (peak > 0 ? 20 * Math.log10(peak) : Number.NaN);
const snr = (x: Arrival): number => Math.max(1e-6, x.peak / Math.max(x.noise, 1e-9));
