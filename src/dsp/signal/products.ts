/** Sums of products, lag by lag. */

/**
 * out[d] = Σ x[k]·y[from + d + k], k in 0…n−1, for every d that out has room for. Four sums at a time: side by side they cost
 * hardly more than one, each of them added up as it would be alone. Real-time safe: yes.
 */
export function productsAt(x: Float64Array, y: Float64Array, from: number, n: number, out: Float64Array): void {
  let d = 0;
  for (; d + 4 <= out.length; d += 4) {
    let s0 = 0;
    let s1 = 0;
    let s2 = 0;
    let s3 = 0;
    const at = from + d;
    for (let k = 0; k < n; k++) {
      const v = x[k] as number;
      s0 += v * (y[at + k] as number);
      s1 += v * (y[at + k + 1] as number);
      s2 += v * (y[at + k + 2] as number);
      s3 += v * (y[at + k + 3] as number);
    }
    out[d] = s0;
    out[d + 1] = s1;
    out[d + 2] = s2;
    out[d + 3] = s3;
  }
  for (; d < out.length; d++) {
    let sum = 0;
    for (let k = 0; k < n; k++) sum += (x[k] as number) * (y[from + d + k] as number);
    out[d] = sum;
  }
}
