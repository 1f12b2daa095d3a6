/**
 * What of the inputs only a frame shows: the octave bands and the running correlation. They are worked out for some steps at once:
 * code and numbers that were last in use some milliseconds ago come from far off in memory, and so come once for all of them.
 */
import type { InputTuning } from '../tuning/inputTuning';
import { BandGauge } from './bandGauge';
import { Trace } from './trace';

/** half of what lies between two frames at 48 kHz (40 a second, steps of 128): all of it would fall on the frame's own step */
const STEPS = 5;

/** One step's frames. */
export interface StepFrames {
  /** as they came in */
  readonly rawA: Float64Array;
  readonly rawB: Float64Array;
  /** aligned */
  readonly a: Float64Array;
  readonly b: Float64Array;
}

export class LateMeters {
  readonly bands: BandGauge;
  readonly trace: Trace;
  /** room for the step under way */
  step: StepFrames;
  private readonly steps: StepFrames[] = [];
  /** frames of each that waits; the oldest of these, and how many there are */
  private readonly frames = new Int32Array(STEPS);
  private oldest = 0;
  private waiting = 0;

  /** @param stepFrames frames of a step at most @param running false: nothing is worked out */
  constructor(
    sampleRate: number,
    stepFrames: number,
    tuning: InputTuning,
    private readonly running = true,
  ) {
    this.bands = new BandGauge(sampleRate, stepFrames);
    this.trace = new Trace(sampleRate, stepFrames, tuning.trace);
    const room = (): Float64Array => new Float64Array(stepFrames);
    for (let s = 0; s < STEPS; s++) this.steps.push({ rawA: room(), rawB: room(), a: room(), b: room() });
    this.step = this.steps[0] as StepFrames;
  }

  /** The step under way is complete, n frames long; `step` is the next one. Real-time safe: yes. */
  next(n: number): void {
    if (!this.running) return;
    this.frames[(this.oldest + this.waiting++) % STEPS] = n;
    if (this.waiting === STEPS) this.catchUp();
    this.step = this.steps[(this.oldest + this.waiting) % STEPS] as StepFrames;
  }

  /** Work out what waits: before either is looked at, or cleared. Real-time safe: yes. */
  catchUp(): void {
    const { bands, trace, steps, frames, oldest, waiting } = this;
    for (let s = oldest; s < oldest + waiting; s++) {
      const { rawA, rawB } = steps[s % STEPS] as StepFrames;
      bands.run(rawA, rawB, frames[s % STEPS] as number);
    }
    for (let s = oldest; s < oldest + waiting; s++) {
      const { a, b } = steps[s % STEPS] as StepFrames;
      trace.run(a, b, frames[s % STEPS] as number);
    }
    this.oldest = (oldest + waiting) % STEPS;
    this.waiting = 0;
  }
}
