/**
 * Finds where blocks were dropped by the wave alone: both channels step at one and the same sample, far beyond their slopes before
 * it and those after it. A drum rises in several samples, and reaches two places at two moments; what a drum does within
 * one sample, it goes on doing in the next. On samples as they came in: nothing has been aligned or filtered yet.
 */
import { INPUT, type StepTuning } from '../tuning/inputTuning';

/** a stream begins with a step */
const BLIND_STRETCHES = 2;

/** One channel: the largest slope of the stretch under way, and of the one before. */
class Slopes {
  last = 0;
  now = 0;
  before = 0;
  /** slope of the step that is looked at, and the largest after it */
  step = 0;
  after = 0;
}

export class Steps {
  private readonly a = new Slopes();
  private readonly b = new Slopes();
  private readonly stretch: number;
  private readonly overBefore: number;
  private readonly overAfter: number;
  private readonly least: number;
  private inStretch = 0;
  /** stretches still to be seen before a slope has any to be set against */
  private blind = BLIND_STRETCHES;
  /** samples seen since the step that is looked at; −1: none */
  private since = -1;

  constructor(sampleRate: number, tuning: StepTuning = INPUT.step) {
    this.stretch = Math.max(4, Math.round(tuning.stretchSeconds * sampleRate));
    this.overBefore = tuning.overBefore;
    this.overAfter = tuning.overAfter;
    this.least = tuning.least;
  }

  /** n frames of each channel. Real-time safe: yes. @returns how many frames before the last of them a step was, or −1 */
  run(xs: Float64Array, ys: Float64Array, n: number): number {
    const { a, b, stretch, overBefore, overAfter, least } = this;
    let found = -1;
    for (let i = 0; i < n; i++) {
      const x = xs[i] as number;
      const y = ys[i] as number;
      const slopeA = Math.abs(x - a.last);
      const slopeB = Math.abs(y - b.last);
      a.last = x;
      b.last = y;
      if (this.since >= 0) {
        if (slopeA > a.after) a.after = slopeA;
        if (slopeB > b.after) b.after = slopeB;
        if (++this.since === stretch) {
          this.since = -1;
          if (a.step > overAfter * a.after && b.step > overAfter * b.after) found = n - 1 - i + stretch;
        }
      }
      if (
        this.blind === 0 &&
        slopeA > overBefore * Math.max(a.now, a.before, least) &&
        slopeB > overBefore * Math.max(b.now, b.before, least)
      ) {
        a.step = slopeA;
        b.step = slopeB;
        a.after = 0;
        b.after = 0;
        this.since = 0;
      }
      if (slopeA > a.now) a.now = slopeA;
      if (slopeB > b.now) b.now = slopeB;
      if (++this.inStretch < stretch) continue;
      this.inStretch = 0;
      if (this.blind > 0) this.blind--;
      a.before = a.now;
      b.before = b.now;
      a.now = 0;
      b.now = 0;
    }
    return found;
  }
}
