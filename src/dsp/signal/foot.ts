/**
 * The first half-wave of a hit, and its foot: where it comes out of nothing, at 10 % of its summit (or another level).
 * Positions are samples of the array looked at.
 */

/** A result that is filled in, never made anew. */
export class HalfWave {
  /** +1 or −1: the way it goes */
  sign = 0;
  /** its height, and where that is */
  summit = 0;
  summitAt = 0;
}

/** The first sample in from…to−1 with |x| ≥ level; `to` where there is none. Real-time safe: yes. */
export function firstOver(x: Float64Array | Float32Array, from: number, to: number, level: number): number {
  let n = from;
  while (n < to && Math.abs(x[n] as number) < level) n++;
  return n;
}

/**
 * The first half-wave that rises over `threshold` in from…to−1 and lasts at least `leastFrames`. Real-time safe: yes.
 * @param end x is looked at up to here
 * @returns false where there is none; `out` is then as it was
 */
export function firstHalfWave(
  x: Float64Array,
  from: number,
  to: number,
  end: number,
  threshold: number,
  leastFrames: number,
  out: HalfWave,
): boolean {
  let n = firstOver(x, from, to, threshold);
  while (n < to) {
    const sign = (x[n] as number) > 0 ? 1 : -1;
    let stop = n;
    let summit = 0;
    let summitAt = n;
    while (stop < end && (x[stop] as number) * sign > 0) {
      const v = (x[stop] as number) * sign;
      if (v > summit) {
        summit = v;
        summitAt = stop;
      }
      stop++;
    }
    let start = n;
    while (start > from && (x[start - 1] as number) * sign > 0) start--;
    if (stop - start >= leastFrames) {
      out.sign = sign;
      out.summit = summit;
      out.summitAt = summitAt;
      return true;
    }
    n = firstOver(x, stop, to, threshold);
  }
  return false;
}

/** Walk back from a summit: the first sample of the rise, not before `from`, with x·sign over `level`. Real-time safe: yes. */
export function riseOver(x: Float64Array, from: number, summitAt: number, sign: number, level: number): number {
  let k = summitAt;
  while (k > from && (x[k - 1] as number) * sign > level) k--;
  return k;
}

/** Walk back from a summit to where x·sign falls to `level`; between samples by a straight line. Real-time safe: yes. */
export function foot(x: Float64Array, from: number, summitAt: number, sign: number, level: number): number {
  const k = riseOver(x, from, summitAt, sign, level);
  // value at k is above the level, at k−1 at or below it
  const above = (x[k] as number) * sign;
  const below = (x[k - 1] as number) * sign;
  return above > below ? k - (above - level) / (above - below) : k;
}
