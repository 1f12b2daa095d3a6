/** A fractional delay that shares nothing with the program's own. */
import FFT from 'fft.js';

/** x later by any number of samples, exact for what is band-limited: a phase ramp over the whole, zero-padded stretch. */
export function shifted(x: Float32Array, samples: number): Float32Array {
  const n = 2 ** Math.ceil(Math.log2(x.length + 4096));
  const fft = new FFT(n);
  const z = new Float64Array(2 * n);
  for (let i = 0; i < x.length; i++) z[2 * i] = x[i] as number;
  const spectrum = new Float64Array(2 * n);
  fft.transform(spectrum, z);
  for (let k = 0; k < n; k++) {
    const f = k <= n / 2 ? k : k - n;
    const angle = (-2 * Math.PI * f * samples) / n;
    const c = Math.cos(angle);
    const s = k === n / 2 ? 0 : Math.sin(angle);
    const re = spectrum[2 * k] as number;
    const im = spectrum[2 * k + 1] as number;
    spectrum[2 * k] = re * c - im * s;
    spectrum[2 * k + 1] = re * s + im * c;
  }
  fft.inverseTransform(z, spectrum);
  return x.map((_, i) => z[2 * i] as number);
}
