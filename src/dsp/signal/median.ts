/** A normal distribution's deviation from its median absolute deviation; and the other way. */
export const MAD_TO_DEVIATION = 1.4826;
export const DEVIATION_TO_MAD = 0.6745;

/** Median of the first n values; sorts them in place; NaN of none. Real-time safe: yes. */
export function median(values: Float64Array, n: number): number {
  if (n === 0) return Number.NaN;
  for (let i = 1; i < n; i++) {
    const v = values[i] as number;
    let j = i - 1;
    while (j >= 0 && (values[j] as number) > v) {
      values[j + 1] = values[j] as number;
      j--;
    }
    values[j + 1] = v;
  }
  const m = n >> 1;
  return n % 2 ? (values[m] as number) : ((values[m - 1] as number) + (values[m] as number)) / 2;
}
