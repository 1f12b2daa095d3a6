/** Transforms, made once a size: they keep nothing from call to call, so that all who need a size share one. */
import FFT from 'fft.js';

const made = new Map<number, FFT>();

/** @param size a power of two. Real-time safe: no (allocates when a size is new). */
export function transformOf(size: number): FFT {
  let fft = made.get(size);
  if (!fft) {
    fft = new FFT(size);
    // its factors outside the collected heap: a thread's heap that grows by a megabyte is cleaned up in full once
    fft.table = Float64Array.from(fft.table);
    made.set(size, fft);
  }
  return fft;
}
