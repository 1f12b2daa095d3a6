/**
 * The meter's engine: blocks of A and B in, Readings out. Everything is allocated in the constructor.
 * Time runs in steps of 128 frames pushed, whatever the block size: at most one transform a step, in the same order.
 */

import { FATE } from '../reading/codes';
import { frameLength, readingFromFrame } from '../reading/frame';
import type { PictureWish } from '../reading/hitPictures';
import type { Reading } from '../reading/reading';
import { DelayEstimator } from './delay/delayEstimator';
import { InputOffsetGauge } from './delay/inputOffsetGauge';
import { NO_DRUM } from './drum/drumSorter';
import { type HeardDrum, HeardDrums } from './heardDrums';
import { Gaps, isSound } from './hit/gaps';
import { HitAnalyser } from './hit/hitAnalyser';
import { HitDetector, type HitSource } from './hit/hitDetector';
import type { HitReach } from './hit/hitReach';
import { HitStore } from './hit/hitStore';
import { Inputs } from './input/inputs';
import { LateMeters } from './input/lateMeters';
import { LevelMeter } from './input/levels';
import { OffsetLine } from './input/offsetLine';
import { leaveOut } from './leftOut';
import { FrameWriter } from './out/frameWriter';
import { PictureWriter } from './out/pictureWriter';
import { TUNING, type Tuning } from './tuning';

export interface EngineOptions {
  /** largest |delay| looked for, ms; 11 (3.8 m) unless told, 34 (11.7 m) for rooms. What lies within 11 ms is read alike with any */
  maxLagMs?: number;
  /** taken out before anything else: delay of B's path against A's, samples, within ±20 ms; 0 unless told */
  offsetSamples?: number;
  /** measure that offset: nothing is taken out, both inputs are fed the same source; give a reach beyond 20 ms */
  settingOffset?: boolean;
  /** where hits begin; looked for in both inputs unless told */
  hits?: HitSource;
  /** false: readings have no running correlation and tell nothing of the noise between hits, which takes a third of the time */
  meters?: boolean;
  /** thresholds; TUNING unless told (see `tuned`) */
  tuning?: Tuning;
}

const STEP_FRAMES = 128;

/** One per stream. */
export class Engine {
  readonly sampleRate: number;
  readonly frameLength: number;
  /** how often the answer or the sum has been worked out anew */
  changes = 0;
  private readonly inputs: Inputs;
  private readonly levelA: LevelMeter;
  private readonly levelB: LevelMeter;
  private readonly late: LateMeters;
  private readonly detector: HitSource;
  private readonly store = new HitStore();
  private readonly gaps: Gaps;
  private readonly heard: HeardDrums;
  private readonly analyser: HitAnalyser;
  private readonly writer: FrameWriter;
  private readonly pictures: PictureWriter;
  private readonly offset: OffsetLine;
  private readonly gauge: InputOffsetGauge | null;
  private inStep = 0;
  private frames = 0;
  private startFrame = 0;
  private held = false;
  private readonly estimator: DelayEstimator;
  /** the drum whose delay is being worked out */
  private estimated = NO_DRUM;

  /** @throws RangeError for a rate outside 8–384 kHz, a reach outside 1–100 ms, an offset beyond ±20 ms */
  constructor(sampleRate: number, options: EngineOptions = {}) {
    const maxLagMs = options.maxLagMs ?? 11;
    const tuning = options.tuning ?? TUNING;
    if (!(sampleRate >= 8000 && sampleRate <= 384000))
      throw new RangeError(`sampleRate must be 8000–384000 but was ${sampleRate}`);
    if (!(maxLagMs >= 1 && maxLagMs <= 100)) throw new RangeError(`maxLagMs must be 1–100 but was ${maxLagMs}`);
    this.sampleRate = sampleRate;
    this.offset = new OffsetLine(sampleRate);
    this.offset.set(options.settingOffset ? 0 : (options.offsetSamples ?? 0));
    this.inputs = new Inputs(sampleRate, STEP_FRAMES, tuning);
    const { rings } = this.inputs;
    this.levelA = new LevelMeter(sampleRate, tuning.input);
    this.levelB = new LevelMeter(sampleRate, tuning.input);
    this.late = new LateMeters(sampleRate, STEP_FRAMES, tuning.input, options.meters ?? true);
    this.detector = options.hits ?? new HitDetector(sampleRate, tuning.hit.detector);
    this.heard = new HeardDrums(sampleRate, tuning);
    // converters' delays are no drum's: they are looked for in the whole reach at once
    const nearLagMs = options.settingOffset ? maxLagMs : 1000 * tuning.hit.nearReachSeconds;
    this.analyser = new HitAnalyser(sampleRate, nearLagMs, maxLagMs, this.store, rings, STEP_FRAMES, tuning);
    this.gaps = new Gaps(sampleRate, this.store, maxLagMs, options.settingOffset === true, tuning);
    this.gauge = options.settingOffset
      ? new InputOffsetGauge(sampleRate, this.store, rings.waveA, rings.waveB, tuning)
      : null;
    const { near, far, widest } = this.analyser;
    const attacks = { ringA: rings.attackA, ringB: rings.attackB, near, far };
    this.estimator = new DelayEstimator(sampleRate, this.store, attacks, tuning);
    const { store, heard, analyser, levelA, levelB, late, offset, gauge, gaps } = this;
    const { trace, bands } = late;
    const sources = { store, heard, analyser, levelA, levelB, trace, offset, gauge, gaps, bands };
    this.writer = new FrameWriter(sampleRate, sources, tuning);
    this.writer.verdict.copyWanted = this.gauge !== null;
    this.pictures = new PictureWriter(sampleRate, this.store, widest.waves, this.heard);
    this.frameLength = frameLength(this.writer.curvePoints);
  }

  /**
   * Blocks of any length, A and B of the same length. A frame with NaN, Inf or more than ±1000 in either is a gap: silence in
   * both, and no hit across it counts. Real-time safe: yes.
   * @throws RangeError when the lengths differ
   */
  push(a: Float32Array, b: Float32Array): void {
    if (a.length !== b.length) throw new RangeError(`b must have length ${a.length} but had length ${b.length}`);
    this.writer.verdict.ended = false;
    for (let i = 0; i < a.length; ) {
      const { rawA, rawB } = this.late.step;
      let at = this.inStep;
      const to = Math.min(a.length, i + STEP_FRAMES - at);
      for (; i < to; i++, at++) {
        const x = a[i] as number;
        const y = b[i] as number;
        const sound = isSound(x) && isSound(y);
        if (!sound) this.gaps.noSound = true;
        rawA[at] = sound ? x : 0;
        rawB[at] = sound ? y : 0;
      }
      this.inStep = at;
      if (at === STEP_FRAMES) this.step();
    }
  }

  /** All that is done once a sample, for the frames gathered; then one unit of work. */
  private step(): void {
    const { inputs, offset, inStep: n } = this;
    const { rawA, rawB, a, b } = this.late.step;
    offset.run(rawA, rawB, a, b, n);
    inputs.run(a, b, n);
    // levels, clips and equality are the inputs' own: a fraction of a sample would round a flat top
    this.levelA.run(rawA, inputs.freeA, n);
    this.levelB.run(rawB, inputs.freeB, n);
    this.analyser.noteClips(rawA, rawB, n, offset.lateA, offset.lateB);
    const { store, gaps, heard, gauge } = this;
    if (gaps.run(rawA, rawB, n, this.frames)) this.changes += leaveOut(store, gaps, heard, gauge);
    const trigger = this.detector.run(inputs.pickA, inputs.pickB, n);
    if (trigger >= 0 && !this.held) gaps.mark(this.analyser.add(trigger + this.startFrame));
    if (this.detector.soon >= 0 && !this.held) this.analyser.addTooSoon(this.detector.soon + this.startFrame);
    this.late.next(n);
    this.frames += n;
    this.inStep = 0;
    this.work();
  }

  /** Frames were lost somewhere in the last `within` (0: just now): hits across that no longer count. Real-time safe: yes. */
  lost(within: number): void {
    this.gaps.add(this.frames - within, this.frames + this.inStep);
    this.changes += leaveOut(this.store, this.gaps, this.heard, this.gauge);
  }

  /** One unit of the waiting work: at most one transform. */
  private work(): boolean {
    if (this.gauge?.work(this.frames)) {
      this.changes++;
      return true;
    }
    if (this.estimator.busy) {
      if (this.estimator.work()) {
        this.heard.decided(this.store, this.estimated, this.analyser);
        this.decided();
      }
      return true;
    }
    const { store, heard, analyser } = this;
    const stale = heard.takeStale(store);
    if (stale !== NO_DRUM) return this.begin(stale);
    const done = analyser.work(this.frames);
    if (done === 'nothing') return false;
    if (done === 'attack') this.keepAttack(analyser.near, false);
    else if (done === 'far-attack' && analyser.far) this.keepAttack(analyser.far, true);
    else if (done === 'arrival') {
      const d = heard.arrive(store, analyser.arrived);
      this.begin(d === NO_DRUM ? d : heard.evaluate(store, d));
    } else if (done === 'sum') {
      const d = store.drum[store.slot(analyser.summed)] as number;
      if (d !== NO_DRUM) heard.addUp(store, d, analyser);
      this.changes++;
    }
    return true;
  }

  private begin(d: number): true {
    this.estimated = d;
    if (d === NO_DRUM) this.decided();
    else {
      const { pool, decision } = this.heard.each[d] as HeardDrum;
      this.estimator.begin(pool, decision, this.heard.isAsked(d));
    }
    return true;
  }

  private keepAttack(reach: HitReach, far: boolean): void {
    this.estimator.keep(this.analyser.attacked, reach.spectra, reach.anchor, far);
  }

  private decided(): void {
    this.writer.meanCurves();
    this.changes++;
  }

  /** Work the kept hits' answers out again, for the compiler's sake: see warmUp. Real-time safe: no. */
  rehearse(times: number): void {
    const { store, heard } = this;
    const { kept } = store;
    for (let i = 0; i < times && kept > 0; i++) {
      const d = heard.arrive(store, store.serial[store.at(i % kept)] as number);
      if (d === NO_DRUM) continue;
      heard.evaluate(store, d);
      const { pool, decision } = heard.each[d] as HeardDrum;
      this.estimator.rehearse(pool, decision);
      heard.decided(store, d, this.analyser);
      this.decided();
    }
  }

  /** End of a file: finish what can be finished. Real-time safe: no. */
  flush(): void {
    if (this.inStep > 0) this.step();
    this.writer.verdict.ended = true;
    for (let i = 0; i < 10000 && this.work(); i++);
  }

  /** Forget every hit. Real-time safe: yes. */
  restart(): void {
    this.store.clear();
    this.gauge?.clear();
    this.analyser.clear();
    this.estimator.clear();
    this.heard.clear(this.store);
    this.writer.rejudge = true;
    this.writer.meanCurves();
    this.detector.clear();
    this.late.catchUp();
    this.late.bands.clear();
    this.levelA.clips = 0;
    this.levelB.clips = 0;
    this.startFrame = this.frames;
  }

  /**
   * Take another offset out from now on, and forget every hit. Real-time safe: yes, unless it throws.
   * @throws RangeError beyond ±20 ms
   */
  setOffset(samples: number): void {
    this.offset.set(samples);
    this.restart();
  }

  /**
   * What was read of the pair before, as the inputs carry it: see HeardDrums. Holds until told otherwise. Real-time safe: yes.
   * @param delaySamples B−A; @param sign product of signs, 0: nothing is known; @param uncertaintySamples NaN: nobody knows
   */
  expect(delaySamples: number, sign: number, uncertaintySamples: number): void {
    this.heard.expect(delaySamples, sign, uncertaintySamples);
  }

  /** Invert B in the reading only; follows at once. Real-time safe: yes. */
  setInvertB(on: boolean): void {
    this.writer.invertB = on;
  }

  /** Read the drum of this id, null: the one that a microphone stands at; follows at once. Real-time safe: yes. */
  setDrum(id: number | null): void {
    this.heard.choose(this.store, id ?? 0);
    this.writer.rejudge = true;
    this.decided();
  }

  /** Keep the reading; go on metering levels. Real-time safe: yes. */
  setHold(on: boolean): void {
    this.held = on;
    this.writer.held = on;
    if (!on) return;
    // what is under way would change the reading
    this.analyser.clear();
    this.estimator.clear();
  }

  /** Write the newest reading; `out` must have length frameLength. Real-time safe: yes, unless it throws. */
  writeFrame(out: Float64Array): void {
    if (out.length !== this.frameLength)
      throw new RangeError(`out must have length ${this.frameLength} but had length ${out.length}`);
    this.late.catchUp();
    this.writer.write(out, this.frames, this.startFrame);
  }

  /** Pictures of the kept hits; `out` must have length PICTURES_LENGTH. Real-time safe: yes, unless it throws. */
  writePictures(out: Float32Array, wish: PictureWish): void {
    this.pictures.write(out, wish, this.writer.invertB ? -1 : 1);
  }

  /** Serials of all kept hits that are behind the shown drum's answer: a reading tells of the newest only. Real-time safe: no (allocates). */
  usedHits(): number[] {
    return this.store.serialsOf(FATE.used, this.heard.shownAt);
  }

  /** The newest reading. Real-time safe: no (allocates). */
  reading(): Reading {
    const frame = new Float64Array(this.frameLength);
    this.writeFrame(frame);
    return readingFromFrame(frame);
  }
}
