/**
 * The meter's engine: blocks of A and B in, Readings out. Everything is allocated in the constructor.
 * Time runs in steps of 128 frames pushed, whatever the block size: at most one transform a step, in the same order.
 */
import { Biquad, HighPass1 } from './filters';
import { frameLength, readingFromFrame } from './frame';
import { FrameWriter } from './frameWriter';
import { HitAnalyser } from './hitAnalyser';
import { HitDetector } from './hitDetector';
import { HitStore } from './hitStore';
import { LevelMeter } from './levels';
import { Pool } from './pool';
import type { Reading } from './reading';
import { Ring } from './ring';
import { SumPool } from './sumPool';
import { Trace } from './trace';

export interface EngineOptions {
  /** largest |delay| looked for, ms; 11 (3.8 m) unless told, 34 (11.7 m) for rooms */
  maxLagMs?: number;
}

const STEP_FRAMES = 128;
const RING_SECONDS = 1;
const MAX_SAMPLE = 1000;

/** One per stream. */
export class Engine {
  readonly sampleRate: number;
  readonly frameLength: number;
  private readonly rawA: Ring;
  private readonly rawB: Ring;
  private readonly pickA: Ring;
  private readonly pickB: Ring;
  private readonly waveA: Ring;
  private readonly waveB: Ring;
  private readonly filters: (HighPass1 | Biquad)[];
  private readonly dcA: Biquad;
  private readonly dcB: Biquad;
  private readonly levelA: LevelMeter;
  private readonly levelB: LevelMeter;
  private readonly trace: Trace;
  private readonly detector: HitDetector;
  private readonly store = new HitStore();
  private readonly pool: Pool;
  private readonly sumPool = new SumPool();
  private readonly analyser: HitAnalyser;
  private readonly writer: FrameWriter;
  private inStep = 0;
  private frames = 0;
  private startFrame = 0;
  private zeroRun = 0;
  private equalRun = 0;
  private held = false;

  /** @throws RangeError for a rate outside 8–384 kHz or a reach outside 1–100 ms */
  constructor(sampleRate: number, options: EngineOptions = {}) {
    const maxLagMs = options.maxLagMs ?? 11;
    if (!(sampleRate >= 8000 && sampleRate <= 384000))
      throw new RangeError(`sampleRate must be 8000–384000 but was ${sampleRate}`);
    if (!(maxLagMs >= 1 && maxLagMs <= 100)) throw new RangeError(`maxLagMs must be 1–100 but was ${maxLagMs}`);
    this.sampleRate = sampleRate;
    const ring = (): Ring => new Ring(RING_SECONDS * sampleRate);
    this.rawA = ring();
    this.rawB = ring();
    this.pickA = ring();
    this.pickB = ring();
    this.waveA = ring();
    this.waveB = ring();
    this.filters = [
      new HighPass1(sampleRate, 100),
      new HighPass1(sampleRate, 100),
      new Biquad('highpass', sampleRate, 80),
      new Biquad('highpass', sampleRate, 80),
    ];
    this.dcA = new Biquad('highpass', sampleRate, 12);
    this.dcB = new Biquad('highpass', sampleRate, 12);
    this.levelA = new LevelMeter(sampleRate);
    this.levelB = new LevelMeter(sampleRate);
    this.trace = new Trace(sampleRate);
    this.detector = new HitDetector(sampleRate);
    this.pool = new Pool(sampleRate);
    this.analyser = new HitAnalyser(sampleRate, maxLagMs, this.store, {
      rawA: this.rawA,
      rawB: this.rawB,
      pickA: this.pickA,
      pickB: this.pickB,
      waveA: this.waveA,
      waveB: this.waveB,
    });
    this.writer = new FrameWriter(sampleRate, {
      store: this.store,
      pool: this.pool,
      sumPool: this.sumPool,
      analyser: this.analyser,
      levelA: this.levelA,
      levelB: this.levelB,
      trace: this.trace,
    });
    this.frameLength = frameLength(this.writer.curvePoints);
  }

  /**
   * Blocks of any length, A and B of the same length. NaN and Inf count as 0. Real-time safe: yes.
   * @throws RangeError when the lengths differ
   */
  push(a: Float32Array, b: Float32Array): void {
    if (a.length !== b.length) throw new RangeError(`b must have length ${a.length} but had length ${b.length}`);
    for (let i = 0; i < a.length; i++) this.step(finite(a[i] as number), finite(b[i] as number));
  }

  private step(a: number, b: number): void {
    const f = this.filters;
    const pa = (f[0] as HighPass1).step(a);
    const pb = (f[1] as HighPass1).step(b);
    this.rawA.push(this.dcA.step(a));
    this.rawB.push(this.dcB.step(b));
    this.pickA.push(pa);
    this.pickB.push(pb);
    this.waveA.push((f[2] as Biquad).step(a));
    this.waveB.push((f[3] as Biquad).step(b));
    this.levelA.step(a);
    this.levelB.step(b);
    this.trace.step(a, b);
    this.analyser.noteClips(a, b);
    this.zeroRun = a === 0 && b === 0 ? this.zeroRun + 1 : 0;
    this.equalRun = a !== b ? 0 : a === 0 ? this.equalRun : this.equalRun + 1;
    const trigger = this.detector.step(pa, pb);
    if (trigger >= 0 && !this.held) this.analyser.add(trigger + this.startFrame);
    this.frames++;
    if (++this.inStep === STEP_FRAMES) {
      this.inStep = 0;
      this.work();
    }
  }

  /** One unit of the waiting work: at most one transform. */
  private work(): boolean {
    const done = this.analyser.work(this.frames);
    if (done === 'nothing') return false;
    if (done !== 'part') {
      this.pool.evaluate(this.store);
      this.sumPool.evaluate(this.store, this.pool);
      this.writer.poolCurves();
    }
    return true;
  }

  /** End of a file: finish what can be finished. Real-time safe: no. */
  flush(): void {
    for (let i = 0; i < 10000 && this.work(); i++);
  }

  /** Forget every hit. Real-time safe: yes. */
  restart(): void {
    this.store.clear();
    this.analyser.clear();
    this.pool.evaluate(this.store);
    this.sumPool.clear();
    this.writer.poolCurves();
    this.detector.clear();
    this.levelA.clips = 0;
    this.levelB.clips = 0;
    this.startFrame = this.frames;
  }

  /** Invert B in the reading only; follows at once. Real-time safe: yes. */
  setInvertB(on: boolean): void {
    this.writer.invertB = on;
  }

  /** Keep the reading; go on metering levels. Real-time safe: yes. */
  setHold(on: boolean): void {
    this.held = on;
  }

  /** Write the newest reading; `out` must have length frameLength. Real-time safe: yes, unless it throws. */
  writeFrame(out: Float64Array): void {
    if (out.length !== this.frameLength)
      throw new RangeError(`out must have length ${this.frameLength} but had length ${out.length}`);
    this.writer.write(out, this.frames, this.startFrame, this.zeroRun, this.equalRun);
  }

  /** The newest reading. Real-time safe: no (allocates). */
  reading(): Reading {
    const frame = new Float64Array(this.frameLength);
    this.writeFrame(frame);
    return readingFromFrame(frame);
  }
}

function finite(x: number): number {
  return x > -MAX_SAMPLE && x < MAX_SAMPLE ? x : 0;
}
