/** The Theil–Sen line through a handful of hits: the median slope of all pairs, so that a bad hit doesn't tilt it. */
import { MAD_TO_DEVIATION, median } from '../signal/median';

/** Of the line laid last. */
export class Line {
  /** per second */
  slope = Number.NaN;
  /** its value at the last hit it was laid through */
  end = Number.NaN;
  /** by how much it climbs (+) or falls (−) from its first hit to its last */
  climb = Number.NaN;
  /** median distance of the hits from it, as a deviation; `leastScatter` at least */
  residual = Number.NaN;
  /** share of the pairs that go its way */
  share = Number.NaN;
  private readonly sorted: Float64Array;

  constructor(
    mostHits: number,
    private readonly leastScatter: number,
  ) {
    this.sorted = new Float64Array((mostHits * (mostHits - 1)) / 2);
  }

  /** Through hits from…to−1. Real-time safe: yes. @param at seconds */
  lay(at: Float64Array, value: Float64Array, from: number, to: number): void {
    const { sorted } = this;
    let pairs = 0;
    let up = 0;
    for (let i = from; i < to; i++)
      for (let j = i + 1; j < to; j++) {
        const slope = ((value[j] as number) - (value[i] as number)) / ((at[j] as number) - (at[i] as number));
        sorted[pairs++] = slope;
        if (slope > 0) up++;
      }
    this.slope = pairs > 0 ? median(sorted, pairs) : 0;
    this.share = pairs > 0 ? Math.max(up, pairs - up) / pairs : 0;
    const n = to - from;
    for (let i = 0; i < n; i++) sorted[i] = (value[from + i] as number) - this.slope * (at[from + i] as number);
    const offset = median(sorted, n);
    for (let i = 0; i < n; i++)
      sorted[i] = Math.abs((value[from + i] as number) - this.slope * (at[from + i] as number) - offset);
    this.residual = Math.max(this.leastScatter, MAD_TO_DEVIATION * median(sorted, n));
    this.end = offset + this.slope * (at[to - 1] as number);
    this.climb = this.slope * ((at[to - 1] as number) - (at[from] as number));
  }
}
