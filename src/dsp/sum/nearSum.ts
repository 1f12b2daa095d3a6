/** What a drum's hits have in common as things stand, with a delay round that, and once one of the two is delayed so that the arrivals about meet. */
import {
  HERE_BEGINS,
  HERE_LENGTH,
  HERE_REACH,
  HERE_STEPS,
  herePoints,
  NEAR_BANDS,
  NEAR_HALF_POINTS,
  NEAR_POINTS,
} from '../../reading/bands';
import { LAG_BANDS, type SumLags } from '../hit/sumLags';

export class NearSum {
  /** Re γ of NEAR_BANDS bands as things stand; NaN where the hits don't carry it */
  readonly now = new Float64Array(NEAR_BANDS).fill(Number.NaN);
  /** the same with B's delay fallen by centre + (i − NEAR_HALF_POINTS)·factor samples, band after band */
  readonly values = new Float64Array(NEAR_BANDS * NEAR_POINTS).fill(Number.NaN);
  /** the same with B's delay fallen by (i·HERE_STEPS[n] − HERE_REACH)·factor samples, band n from HERE_BEGINS[n] on */
  readonly here = new Float64Array(HERE_LENGTH).fill(Number.NaN);
  /** the arrival that `values` lie round, samples of the stream; NaN: none */
  centre = Number.NaN;
  private readonly common = new Float64Array(Math.max(NEAR_POINTS, 2 * HERE_REACH + 1));

  /**
   * Real-time safe: yes.
   * @param slots the hits, the first `hits` of them
   * @param bandOf place of a near band in `lags`; −1: the hits don't carry it
   * @param delay the arrival, samples of the stream; NaN: none
   * @param factor samples of the stream to one of `lags`
   */
  evaluate(
    lags: SumLags,
    slots: Int32Array,
    hits: number,
    bandOf: (n: number) => number,
    delay: number,
    factor: number,
  ): void {
    this.centre = Number.isNaN(delay) ? Number.NaN : Math.round(delay / factor) * factor;
    for (let n = 0; n < NEAR_BANDS; n++) {
      const band = bandOf(n);
      if (band < 0) continue;
      let aa = 0;
      let bb = 0;
      for (let i = 0; i < hits; i++) {
        const at = (slots[i] as number) * LAG_BANDS + band;
        aa += lags.powerA[at] as number;
        bb += lags.powerB[at] as number;
      }
      if (!(aa * bb > 0)) continue;
      // levels made equal over all the hits together
      const norm = 1 / Math.sqrt(aa * bb);
      const begin = HERE_BEGINS[n] as number;
      const points = herePoints(n);
      lags.addUp(band, slots, hits, -HERE_REACH, points, this.common, HERE_STEPS[n] as number);
      this.now[n] = (this.common[(points - 1) / 2] as number) * norm;
      for (let i = 0; i < points; i++) this.here[begin + i] = (this.common[i] as number) * norm;
      if (Number.isNaN(this.centre)) continue;
      lags.addUp(band, slots, hits, this.centre / factor - NEAR_HALF_POINTS, NEAR_POINTS, this.common, 1);
      for (let i = 0; i < NEAR_POINTS; i++) this.values[n * NEAR_POINTS + i] = (this.common[i] as number) * norm;
    }
  }

  /** Real-time safe: yes. */
  clear(): void {
    this.now.fill(Number.NaN);
    this.values.fill(Number.NaN);
    this.here.fill(Number.NaN);
    this.centre = Number.NaN;
  }
}
