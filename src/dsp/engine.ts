/**
 * The meter's engine: blocks of A and B in, Readings out. Everything is allocated in the constructor.
 * Time runs in steps of 128 frames pushed, whatever the block size: at most one transform a step, in the same order.
 */

import { frameLength, readingFromFrame } from '../reading/frame';
import type { PictureWish } from '../reading/hitPictures';
import type { Reading } from '../reading/reading';
import type { AttackFit } from './delay/attackFit';
import { OffsetGauge } from './delay/offsetGauge';
import { Stack } from './delay/stack';
import { NO_DRUM } from './drum/drumSorter';
import { Kit, type KitDrum } from './drumAnswers';
import { HitAnalyser } from './hit/hitAnalyser';
import { HitDetector } from './hit/hitDetector';
import { HitStore } from './hit/hitStore';
import { Inputs } from './input/inputs';
import { LevelMeter } from './input/levels';
import { OffsetLine } from './input/offsetLine';
import { Trace } from './input/trace';
import { FrameWriter } from './out/frameWriter';
import { PictureWriter } from './out/pictureWriter';

export interface EngineOptions {
  /** largest |delay| looked for, ms; 11 (3.8 m) unless told, 34 (11.7 m) for rooms */
  maxLagMs?: number;
  /** taken out before anything else: delay of B's path against A's, samples, within ±20 ms; 0 unless told */
  offsetSamples?: number;
  /** measure that offset: nothing is taken out, both inputs are fed the same source; give a reach beyond 20 ms */
  settingOffset?: boolean;
}

const STEP_FRAMES = 128;
const MAX_SAMPLE = 1000;

/** One per stream. */
export class Engine {
  readonly sampleRate: number;
  readonly frameLength: number;
  /** how often the answer or the sum has been worked out anew */
  changes = 0;
  private readonly inputs: Inputs;
  private readonly levelA: LevelMeter;
  private readonly levelB: LevelMeter;
  private readonly trace: Trace;
  private readonly detector: HitDetector;
  private readonly store = new HitStore();
  private readonly kit: Kit;
  private readonly analyser: HitAnalyser;
  private readonly writer: FrameWriter;
  private readonly pictures: PictureWriter;
  private readonly offset: OffsetLine;
  private readonly gauge: OffsetGauge | null;
  private inStep = 0;
  /** the frames gathered for this step, and what the filters make of them */
  private readonly stepA = new Float64Array(STEP_FRAMES);
  private readonly stepB = new Float64Array(STEP_FRAMES);
  /** the same, aligned */
  private readonly inA = new Float64Array(STEP_FRAMES);
  private readonly inB = new Float64Array(STEP_FRAMES);
  private frames = 0;
  private startFrame = 0;
  private zeroRun = 0;
  private equalRun = 0;
  private held = false;
  private readonly fit: AttackFit;
  private readonly stack: Stack;
  /** 0: idle, 1: to pool, 2…: to lay hit fitStage − 2, then to stack the hits if they are noisy */
  private fitStage = 0;
  /** the drum that is being worked on */
  private fitDrum = NO_DRUM;

  /** @throws RangeError for a rate outside 8–384 kHz, a reach outside 1–100 ms, an offset beyond ±20 ms */
  constructor(sampleRate: number, options: EngineOptions = {}) {
    const maxLagMs = options.maxLagMs ?? 11;
    if (!(sampleRate >= 8000 && sampleRate <= 384000))
      throw new RangeError(`sampleRate must be 8000–384000 but was ${sampleRate}`);
    if (!(maxLagMs >= 1 && maxLagMs <= 100)) throw new RangeError(`maxLagMs must be 1–100 but was ${maxLagMs}`);
    this.sampleRate = sampleRate;
    this.offset = new OffsetLine(sampleRate);
    this.offset.set(options.settingOffset ? 0 : (options.offsetSamples ?? 0));
    this.inputs = new Inputs(sampleRate, STEP_FRAMES);
    const { rings } = this.inputs;
    this.levelA = new LevelMeter(sampleRate);
    this.levelB = new LevelMeter(sampleRate);
    this.trace = new Trace(sampleRate);
    this.detector = new HitDetector(sampleRate);
    this.kit = new Kit(sampleRate);
    this.analyser = new HitAnalyser(sampleRate, maxLagMs, this.store, rings);
    this.fit = this.analyser.fit;
    this.gauge = options.settingOffset ? new OffsetGauge(sampleRate, this.store, rings.waveA, rings.waveB) : null;
    this.stack = new Stack(sampleRate, this.analyser.waves);
    this.writer = new FrameWriter(sampleRate, {
      store: this.store,
      kit: this.kit,
      analyser: this.analyser,
      levelA: this.levelA,
      levelB: this.levelB,
      trace: this.trace,
      offset: this.offset,
      gauge: this.gauge,
    });
    this.writer.verdict.copyWanted = this.gauge !== null;
    this.pictures = new PictureWriter(sampleRate, this.store, this.analyser.waves);
    this.frameLength = frameLength(this.writer.curvePoints);
  }

  /**
   * Blocks of any length, A and B of the same length. NaN and Inf count as 0. Real-time safe: yes.
   * @throws RangeError when the lengths differ
   */
  push(a: Float32Array, b: Float32Array): void {
    if (a.length !== b.length) throw new RangeError(`b must have length ${a.length} but had length ${b.length}`);
    this.writer.verdict.ended = false;
    const { stepA, stepB } = this;
    for (let i = 0; i < a.length; i++) {
      const x = a[i] as number;
      const y = b[i] as number;
      stepA[this.inStep] = x > -MAX_SAMPLE && x < MAX_SAMPLE ? x : 0;
      stepB[this.inStep] = y > -MAX_SAMPLE && y < MAX_SAMPLE ? y : 0;
      if (++this.inStep === STEP_FRAMES) this.step();
    }
  }

  /** All that is done once a sample, for the frames gathered; then one unit of work. */
  private step(): void {
    const { stepA: rawA, stepB: rawB, inA: a, inB: b, inputs, offset, inStep: n } = this;
    offset.run(rawA, rawB, a, b, n);
    inputs.run(a, b, n);
    // levels, clips and equality are the inputs' own: a fraction of a sample would round a flat top
    this.levelA.run(rawA, inputs.freeA, n);
    this.levelB.run(rawB, inputs.freeB, n);
    this.trace.run(a, b, n);
    this.analyser.noteClips(rawA, rawB, n, offset.lateA, offset.lateB);
    this.compare(n);
    const trigger = this.detector.run(inputs.pickA, inputs.pickB, n);
    if (trigger >= 0 && !this.held) this.analyser.add(trigger + this.startFrame);
    if (this.detector.soon >= 0 && !this.held) this.analyser.addTooSoon(this.detector.soon + this.startFrame);
    this.frames += n;
    this.inStep = 0;
    this.work();
  }

  /** How long both have been exactly zero, and how long exactly equal. */
  private compare(n: number): void {
    for (let i = 0; i < n; i++) {
      const a = this.stepA[i] as number;
      const b = this.stepB[i] as number;
      this.zeroRun = a === 0 && b === 0 ? this.zeroRun + 1 : 0;
      if (a !== b) this.equalRun = 0;
      else if (a !== 0) this.equalRun++;
    }
  }

  /** One unit of the waiting work: at most one transform. */
  private work(): boolean {
    if (this.gauge?.work(this.frames)) {
      this.changes++;
      return true;
    }
    if (this.fitStage > 0) {
      this.workOnFit();
      return true;
    }
    const done = this.analyser.work(this.frames);
    if (done === 'nothing') return false;
    if (done === 'arrival') {
      this.fitDrum = this.kit.arrive(this.store, this.analyser.arrived);
      if (this.fitDrum === NO_DRUM) this.decided();
      else {
        this.kit.evaluate(this.store, this.fitDrum);
        this.fitStage = 1;
      }
    } else if (done === 'sum') {
      const d = this.store.drum[this.store.slot(this.analyser.summed)] as number;
      if (d !== NO_DRUM) {
        const drum = this.kit.each[d] as KitDrum;
        drum.sum.evaluate(this.store, drum.pool);
      }
      this.changes++;
    }
    return true;
  }

  /** The second witness: pool (one transform), then a hit a step, then the answer. */
  private workOnFit(): void {
    const { fit } = this;
    const { pool } = this.kit.each[this.fitDrum] as KitDrum;
    if (this.fitStage === 1) {
      fit.pool(pool.drumSlots, pool.drumHits, pool.picks.delay);
      this.fitStage = 2;
      return;
    }
    const i = this.fitStage - 2;
    if (i < pool.drumHits) {
      if (fit.hit(i, pool.drumSlots[i] as number)) this.fitStage++;
      return;
    }
    if (this.fitStage === pool.drumHits + 2) {
      fit.finish();
      this.fitStage++;
      if (pool.wantsStack) this.stack.begin(pool.drumSlots, pool.drumHits);
      else this.stack.clear();
      return;
    }
    if (!this.stack.work()) return;
    this.kit.decide(this.store, this.fitDrum, fit, this.stack);
    this.fitStage = 0;
    this.decided();
  }

  private decided(): void {
    this.writer.meanCurves();
    this.changes++;
  }

  /** Work the kept hits' answers out again, for the compiler's sake: see warmUp. Real-time safe: no. */
  rehearse(times: number): void {
    const { store, kit, fit, stack } = this;
    const kept = store.count - store.first + 1;
    for (let i = 0; i < times && kept > 0; i++) {
      const d = kit.arrive(store, store.first + (i % kept));
      if (d === NO_DRUM) continue;
      kit.evaluate(store, d);
      fit.finish();
      const { pool } = kit.each[d] as KitDrum;
      stack.begin(pool.drumSlots, pool.drumHits);
      while (!stack.work());
      kit.decide(store, d, fit, stack);
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
    this.fitStage = 0;
    this.kit.clear();
    this.writer.rejudge = true;
    this.writer.meanCurves();
    this.detector.clear();
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

  /** Invert B in the reading only; follows at once. Real-time safe: yes. */
  setInvertB(on: boolean): void {
    this.writer.invertB = on;
  }

  /** Read the drum of this id, null: the loudest in A; follows at once. Real-time safe: yes. */
  setDrum(id: number | null): void {
    this.kit.choose(id ?? 0);
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
    this.fitStage = 0;
  }

  /** Write the newest reading; `out` must have length frameLength. Real-time safe: yes, unless it throws. */
  writeFrame(out: Float64Array): void {
    if (out.length !== this.frameLength)
      throw new RangeError(`out must have length ${this.frameLength} but had length ${out.length}`);
    this.writer.write(out, this.frames, this.startFrame, this.zeroRun, this.equalRun);
  }

  /** Pictures of the kept hits; `out` must have length PICTURES_LENGTH. Real-time safe: yes, unless it throws. */
  writePictures(out: Float32Array, wish: PictureWish): void {
    this.pictures.write(out, wish, this.writer.invertB ? -1 : 1);
  }

  /** The newest reading. Real-time safe: no (allocates). */
  reading(): Reading {
    const frame = new Float64Array(this.frameLength);
    this.writeFrame(frame);
    return readingFromFrame(frame);
  }
}
