/** Between equally spaced values of a band-limited curve. */

/**
 * Value at `at` (0 … length−1, places may lie between) by the six values round it (Lagrange's formula: M. Abramowitz,
 * I. A. Stegun, "Handbook of Mathematical Functions", 25.2). Exact at the places themselves. Real-time safe: yes.
 * @param from first value; @param length at least 6
 */
export function lagrange(values: ArrayLike<number>, from: number, length: number, at: number): number {
  const base = Math.max(2, Math.min(length - 4, Math.floor(at)));
  const t = at - base;
  if (t === 0) return values[from + base] as number;
  let sum = 0;
  for (let j = -2; j <= 3; j++) {
    let w = 1;
    for (let m = -2; m <= 3; m++) if (m !== j) w *= (t - m) / (j - m);
    sum += w * (values[from + base + j] as number);
  }
  return sum;
}
