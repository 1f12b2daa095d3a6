/** Largest |x| in from…to−1; 0 of none. Real-time safe: yes. */
export function peakOf(x: Float64Array | Float32Array, from: number, to: number): number {
  let most = 0;
  for (let i = from; i < to; i++) {
    const v = Math.abs(x[i] as number);
    if (v > most) most = v;
  }
  return most;
}
