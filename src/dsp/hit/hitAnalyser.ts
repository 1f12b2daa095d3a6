/**
 * The work of a hit, in pieces of at most one transform: first arrivals and the waveform's correlation as soon as the
 * look-ahead has come in, then the sum's spectra, as they come in. Results go into the HitStore.
 *
 * Every hit is read within the near reach, whatever was asked for, so that a longer reach can't change what is read there.
 * Only where the near reach shows nothing, and the far one does, is the hit a far one.
 */

import { HERE_REACH, NEAR_HALF_POINTS, nearStep } from '../../reading/bands';
import { FATE } from '../../reading/codes';
import type { Rings } from '../input/inputs';
import { TUNING, type Tuning } from '../tuning';
import { ClipLog } from './clipLog';
import { FINGERPRINT, HitPrint } from './fingerprint';
import { CORRELATE, CORRELATE_FAR, HitQueue, LOOK_FAR, PICK, PICK_LOW, PRINT, SUM } from './hitQueue';
import { HitReach } from './hitReach';
import { HitSpectra } from './hitSpectra';
import type { HitStore } from './hitStore';
import type { SumLags } from './sumLags';

/** What a call of `work` has done: `attack`, `far-attack`: a hit's first arrivals and its attack's spectra are there, for this call only */
export type WorkDone = 'nothing' | 'attack' | 'far-attack' | 'part' | 'arrival' | 'sum';

export class HitAnalyser {
  readonly near: HitReach;
  /** null: no farther than the near one */
  readonly far: HitReach | null;
  /** what A and B of the kept hits have in common at each lag, in frames of `lagFactor` samples */
  readonly lags: SumLags;
  readonly lagFactor: number;
  /** slot of the hit whose attack, and serial of the one whose arrival, respectively sum, was worked out last */
  attacked = 0;
  arrived = 0;
  summed = 0;
  private readonly queue = new HitQueue();
  private readonly print: HitPrint;
  /** frames after the trigger that have to have come in before an arrival is worked out */
  private readonly lookAheadFrames: number;
  private readonly sum: HitSpectra;
  /** pieces of a sum's work that a step has room for */
  private readonly sumPieces: number;
  private readonly clipAfter: number;
  private readonly clipsA: ClipLog;
  private readonly clipsB: ClipLog;
  private frame = 0;
  /** delay from which a hit lies at the edge of the near reach, samples */
  private readonly edge: number;
  /** the hit before was a far one */
  private lastFar = false;

  /** @param nearLagMs the near reach; `maxLagMs` where that is no farther; @param stepFrames between two calls of `work` */
  constructor(
    sampleRate: number,
    nearLagMs: number,
    maxLagMs: number,
    private readonly store: HitStore,
    private readonly rings: Rings,
    stepFrames: number,
    tuning: Tuning = TUNING,
  ) {
    const { hit, input } = tuning;
    this.near = new HitReach(sampleRate, Math.min(nearLagMs, maxLagMs), rings, tuning);
    this.far = maxLagMs > nearLagMs ? new HitReach(sampleRate, maxLagMs, rings, tuning) : null;
    this.print = new HitPrint(sampleRate, rings, hit.fingerprint);
    this.lookAheadFrames = Math.max(this.widest.lookAheadFrames, this.print.lookAheadFrames);
    const { maxLagSamples } = this.far ?? this.near;
    const step = nearStep(sampleRate);
    const mostLag = Math.max(maxLagSamples + NEAR_HALF_POINTS * step, HERE_REACH * step);
    this.sum = new HitSpectra(sampleRate, hit.spectra, mostLag);
    this.sumPieces = Math.max(1, Math.round(stepFrames / sampleRate / hit.spectra.pieceSeconds));
    this.lags = this.sum.lags;
    this.lagFactor = this.sum.factor;
    this.clipAfter = Math.round(hit.heard.clipAfterSeconds * sampleRate);
    this.edge = this.near.maxLagSamples - Math.round(hit.nearEdgeSeconds * sampleRate);
    this.clipsA = new ClipLog(input.clip);
    this.clipsB = new ClipLog(input.clip);
  }

  /** the whole reach: its curves and waveforms are what is shown */
  get widest(): HitReach {
    return this.far ?? this.near;
  }

  /** n raw frames of each channel, for the clip log; how much later the rings hold them. Real-time safe: yes. */
  noteClips(a: Float64Array, b: Float64Array, n: number, lateA: number, lateB: number): void {
    this.clipsA.note(a, this.frame + lateA, n);
    this.clipsB.note(b, this.frame + lateB, n);
    this.frame += n;
  }

  /** A hit begins at `trigger`. With too many under way it is let go. Real-time safe: yes. @returns the newest hit's slot */
  add(trigger: number): number {
    if (this.queue.full) return this.store.newest;
    const slot = this.store.add(trigger);
    this.near.waves.forget(slot);
    this.far?.waves.forget(slot);
    this.queue.add(this.store.count);
    return slot;
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
      if (stage >= SUM) continue;
      const slot = store.slot(queue.serial(j));
      if (frames < (store.trigger[slot] as number) + this.lookAheadFrames) break;
      queue.advance(j);
      const done = this.workOnArrival(stage, slot);
      if (done !== 'arrival') return done;
      queue.skipTo(j, SUM);
      store.hasArrival[slot] = 1;
      this.arrived = queue.serial(j);
      return done;
    }
    return queue.count > 0 ? this.workOnSum(frames) : 'nothing';
  }

  private workOnArrival(stage: number, slot: number): WorkDone {
    const { store, near, far } = this;
    const trigger = store.trigger[slot] as number;
    if (stage === PICK) {
      near.look(slot, trigger);
      near.write(store, slot);
      this.setClipped(slot);
      this.attacked = slot;
      return 'attack';
    }
    if (stage === PICK_LOW) {
      near.writeLow(store, slot);
      return 'part';
    }
    if (stage === PRINT) {
      this.print.write(trigger, store.print, slot * FINGERPRINT);
      return 'part';
    }
    if (stage === CORRELATE) {
      near.correlate(slot);
      near.writeWave(store, slot);
      return far === null ? 'arrival' : 'part';
    }
    if (far === null) return 'arrival';
    if (stage === LOOK_FAR) {
      far.look(slot, trigger);
      this.attacked = slot;
      return 'far-attack';
    }
    if (stage === CORRELATE_FAR) {
      far.correlate(slot);
      this.lastFar = this.isFar(far, trigger);
      if (this.lastFar) this.takeFar(far, slot);
      this.setBetween(this.lastFar ? far : near, slot);
    }
    return 'arrival';
  }

  /** The near reach shows nothing of the hit, the far one does; where neither does it goes with the one before. */
  private isFar(far: HitReach, trigger: number): boolean {
    const { near, edge } = this;
    if (near.oneSided !== 0 && far.heardByBoth) return true;
    // at its edge the near reach shows a delay or not, as the trigger falls
    if (near.usable) return near.pickDelay > edge && far.usable && far.pickDelay > edge;
    if (far.usable && far.beyond(near.maxLagSamples, trigger)) return true;
    // a curve of next to nothing in one channel can be clear by chance
    if (near.clear && near.found && !(near.waveDelay > edge)) return false;
    if (far.clear && far.waveDelay > edge) return true;
    return !near.clear && this.lastFar;
  }

  private takeFar(far: HitReach, slot: number): void {
    const { store } = this;
    store.far[slot] = 1;
    far.write(store, slot);
    far.writeLow(store, slot);
    far.writeWave(store, slot);
    this.setClipped(slot);
  }

  /** A drum at the edge has hits of either reach, and they are of one drum. */
  private setBetween(reach: HitReach, slot: number): void {
    const { near, edge } = this;
    const delay = reach.usable ? reach.pickDelay : reach.clear ? reach.waveDelay : Number.NaN;
    const width = near.maxLagSamples - edge;
    this.store.between[slot] = delay > edge - width && delay <= near.maxLagSamples + width ? 1 : 0;
  }

  private setClipped(slot: number): void {
    const at = this.store.anchor[slot] as number;
    const clipA = this.clipsA.within(at - 2, at + this.clipAfter);
    const clipB = this.clipsB.within(at - 2, at + this.clipAfter);
    this.store.clipped[slot] = (clipA ? 1 : 0) | (clipB ? 2 : 0);
  }

  /** The sum's spectra of the oldest hit, and what they have in common at each lag: as many small pieces as a step has room for. */
  private workOnSum(frames: number): WorkDone {
    const { queue, store } = this;
    if (queue.stage(0) < SUM) return 'nothing';
    const serial = queue.serial(0);
    const slot = store.slot(serial);
    const anchor = store.anchor[slot] as number;
    // while the hit is still coming in, and no other waits, there is no hurry
    const isEarly = queue.count === 1 && frames < anchor + this.sum.lookAheadFrames;
    const pieces = isEarly ? 1 : this.sumPieces;
    for (let i = 0; i < pieces; i++) {
      const done = this.sum.work(this.rings, frames, anchor, store, slot);
      if (done === 'waiting') return i === 0 ? 'nothing' : 'part';
      if (done === 'part') continue;
      store.hasSum[slot] = 1;
      this.summed = serial;
      queue.shift();
      return 'sum';
    }
    return 'part';
  }

  /** Forget what is under way; the kept hits' waveforms stay to be looked at. Real-time safe: yes. */
  clear(): void {
    this.queue.clear();
    this.sum.clear();
    this.lastFar = false;
  }
}
