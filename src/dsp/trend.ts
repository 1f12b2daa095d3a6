/**
 * A microphone on the move: a line through the newest first arrivals (Theil–Sen: the median of all pairs' slopes), and
 * whether it stands out of their scatter; and a step of the newest two against the ones before.
 */
import { median } from './witness';

/** newest picks looked at */
export const TREND_HITS = 8;
const LINE_HITS = 5;
const STEP_BEFORE = 4;
/** the line's whole climb must exceed both: 0.04 ms is 1.4 cm of path */
const LINE_SECONDS = 0.00004;
/** five hits climb by chance now and then: they must climb so much farther */
const FEW_HITS_FACTOR = 2.5;
const LINE_SCATTERS = 4.5;
const LINE_SHARE = 0.9;
/** both newest must lie beyond both of these on one side: 0.7 cm of path */
const STEP_SECONDS = 0.00002;
const STEP_SCATTERS = 4;
const MAD_TO_DEVIATION = 1.4826;

export class Trend {
  /** fill with `add`, oldest first */
  count = 0;
  /** a line stands out of the scatter: samples per hit, and its value at the newest hit */
  moving = false;
  slope = 0;
  end = Number.NaN;
  /** the newest two lie apart from the ones before */
  stepped = false;
  private readonly at = new Float64Array(TREND_HITS);
  private readonly value = new Float64Array(TREND_HITS);
  private readonly sorted = new Float64Array((TREND_HITS * (TREND_HITS - 1)) / 2);
  private readonly lineSamples: number;
  private readonly stepSamples: number;

  constructor(sampleRate: number) {
    this.lineSamples = LINE_SECONDS * sampleRate;
    this.stepSamples = STEP_SECONDS * sampleRate;
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.count = 0;
  }

  /** The next pick: which hit it is, and its delay. With TREND_HITS kept the oldest goes. Real-time safe: yes. */
  add(serial: number, delay: number): void {
    if (this.count === TREND_HITS) {
      this.at.copyWithin(0, 1);
      this.value.copyWithin(0, 1);
      this.count--;
    }
    this.at[this.count] = serial;
    this.value[this.count] = delay;
    this.count++;
  }

  /** Real-time safe: yes. */
  judge(): void {
    this.moving = false;
    this.stepped = false;
    this.judgeLine();
    this.judgeStep();
  }

  private judgeLine(): void {
    const { at, value, sorted, count: n } = this;
    if (n < LINE_HITS) return;
    let pairs = 0;
    let up = 0;
    for (let i = 0; i < n; i++)
      for (let j = i + 1; j < n; j++) {
        const slope = ((value[j] as number) - (value[i] as number)) / ((at[j] as number) - (at[i] as number));
        sorted[pairs++] = slope;
        if (slope > 0) up++;
      }
    this.slope = median(sorted, pairs);
    for (let i = 0; i < n; i++) sorted[i] = (value[i] as number) - this.slope * (at[i] as number);
    const offset = median(sorted, n);
    for (let i = 0; i < n; i++) sorted[i] = Math.abs((value[i] as number) - this.slope * (at[i] as number) - offset);
    const scatter = MAD_TO_DEVIATION * median(sorted, n);
    const first = at[0] as number;
    const last = at[n - 1] as number;
    this.end = offset + this.slope * last;
    const climb = Math.abs(this.slope) * (last - first);
    const share = Math.max(up, pairs - up) / pairs;
    const least = n > LINE_HITS ? this.lineSamples : FEW_HITS_FACTOR * this.lineSamples;
    this.moving = climb > Math.max(least, LINE_SCATTERS * scatter) && share >= LINE_SHARE;
  }

  private judgeStep(): void {
    const { value, sorted, count: n } = this;
    const before = n - 2;
    if (before < STEP_BEFORE) return;
    for (let i = 0; i < before; i++) sorted[i] = value[i] as number;
    const middle = median(sorted, before);
    for (let i = 0; i < before; i++) sorted[i] = Math.abs((value[i] as number) - middle);
    const limit = Math.max(this.stepSamples, STEP_SCATTERS * MAD_TO_DEVIATION * median(sorted, before));
    const p = (value[n - 2] as number) - middle;
    const q = (value[n - 1] as number) - middle;
    this.stepped = Math.min(Math.abs(p), Math.abs(q)) > limit && p * q > 0;
  }
}
