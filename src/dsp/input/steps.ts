/**
 * Finds where blocks were dropped by the wave alone: both channels step at one and the same sample, far beyond their slopes before
 * it and those after it. A drum rises in several samples, and reaches two places at two moments; what a drum does within
 * one sample, it goes on doing in the next. On samples as they came in: nothing has been aligned or filtered yet.
 */
import { INPUT, type StepTuning } from '../tuning/inputTuning';

/** a stream begins with a step */
const BLIND_STRETCHES = 2;

/** Places in a channel's numbers: its last sample, the largest slope of the stretch under way, and of the one before. */
const LAST = 0;
const NOW = 1;
const BEFORE = 2;
/** slope of the step that is looked at, and the largest after it */
const STEP = 3;
const AFTER = 4;
const NUMBERS = 5;

export class Steps {
  private readonly a = new Float64Array(NUMBERS);
  private readonly b = new Float64Array(NUMBERS);
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
    let { inStretch, since } = this;
    let lastA = a[LAST] as number;
    let lastB = b[LAST] as number;
    let nowA = a[NOW] as number;
    let nowB = b[NOW] as number;
    // a slope is a step from here on, as far as the stretch before goes
    let fromA = overBefore * Math.max(a[BEFORE] as number, least);
    let fromB = overBefore * Math.max(b[BEFORE] as number, least);
    let found = -1;
    for (let i = 0; i < n; i++) {
      const x = xs[i] as number;
      const y = ys[i] as number;
      const slopeA = Math.abs(x - lastA);
      const slopeB = Math.abs(y - lastB);
      lastA = x;
      lastB = y;
      if (since >= 0) {
        if (slopeA > (a[AFTER] as number)) a[AFTER] = slopeA;
        if (slopeB > (b[AFTER] as number)) b[AFTER] = slopeB;
        if (++since === stretch) {
          since = -1;
          const isStep =
            (a[STEP] as number) > overAfter * (a[AFTER] as number) &&
            (b[STEP] as number) > overAfter * (b[AFTER] as number);
          if (isStep) found = n - 1 - i + stretch;
        }
      }
      if (
        slopeA > fromA &&
        slopeB > fromB &&
        slopeA > overBefore * nowA &&
        slopeB > overBefore * nowB &&
        this.blind === 0
      ) {
        a[STEP] = slopeA;
        b[STEP] = slopeB;
        a[AFTER] = 0;
        b[AFTER] = 0;
        since = 0;
      }
      if (slopeA > nowA) nowA = slopeA;
      if (slopeB > nowB) nowB = slopeB;
      if (++inStretch < stretch) continue;
      inStretch = 0;
      if (this.blind > 0) this.blind--;
      a[BEFORE] = nowA;
      b[BEFORE] = nowB;
      fromA = overBefore * Math.max(nowA, least);
      fromB = overBefore * Math.max(nowB, least);
      nowA = 0;
      nowB = 0;
    }
    a[LAST] = lastA;
    b[LAST] = lastB;
    a[NOW] = nowA;
    b[NOW] = nowB;
    this.inStretch = inStretch;
    this.since = since;
    return found;
  }
}
