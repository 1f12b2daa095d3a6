/** Between equally spaced values of a band-limited curve. */

/** values that one in between is made from, and how many of them lie before the last one ahead of it */
export const LAGRANGE_VALUES = 6;
export const LAGRANGE_BEFORE = 2;

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
  for (let j = 0; j < LAGRANGE_VALUES; j++)
    sum += lagrangeWeight(j - LAGRANGE_BEFORE, t) * (values[from + base + j - LAGRANGE_BEFORE] as number);
  return sum;
}

/** Weight of the value j places after the one ahead, for a place t (0…1) after that one. */
function lagrangeWeight(j: number, t: number): number {
  let w = 1;
  for (let m = -LAGRANGE_BEFORE; m < LAGRANGE_VALUES - LAGRANGE_BEFORE; m++) if (m !== j) w *= (t - m) / (j - m);
  return w;
}

/** Weights of the LAGRANGE_VALUES values for a place t (0…1) after the third of them. Real-time safe: no. */
export const lagrangeWeights = (t: number): Float64Array =>
  Float64Array.from({ length: LAGRANGE_VALUES }, (_, j) => lagrangeWeight(j - LAGRANGE_BEFORE, t));
