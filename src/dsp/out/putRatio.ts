/**
 * out[at] = ±product / √(a·b) of element k, −1…+1; 0/0 without signal is the NaN that stands for no value. Arrays in, and
 * no choice between a fraction and NaN: either makes some compilers box the number, and forty frames a second of
 * boxes keep the audio thread's garbage collector busy (seen by heap sampling in the browser).
 */
export function putRatio(
  out: Float64Array,
  at: number,
  product: Float64Array,
  a: Float64Array,
  b: Float64Array,
  k: number,
  flip: number,
): void {
  const r = (product[k] as number) / Math.sqrt((a[k] as number) * (b[k] as number));
  out[at] = flip * Math.max(-1, Math.min(1, r));
}
