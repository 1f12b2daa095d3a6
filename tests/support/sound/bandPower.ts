/** The power of a stretch of sound in a band, by one transform of all of it. */
import FFT from 'fft.js';

/** @returns mean squares between lowHz and highHz, in arbitrary units that are the same for the same length */
export function bandPower(x: Float32Array | Float64Array, sampleRate: number, lowHz: number, highHz: number): number {
  const n = 2 ** Math.ceil(Math.log2(x.length));
  const fft = new FFT(n);
  const padded = new Float64Array(n);
  padded.set(x);
  const spectrum = new Float64Array(2 * n);
  fft.realTransform(spectrum, padded);
  const from = Math.ceil((lowHz * n) / sampleRate);
  const to = Math.floor((highHz * n) / sampleRate);
  let power = 0;
  for (let k = from; k <= to; k++) power += (spectrum[2 * k] as number) ** 2 + (spectrum[2 * k + 1] as number) ** 2;
  return power;
}
