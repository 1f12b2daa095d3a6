/** The inputs of correlation.py, made again here to the last bit. */

/** mulberry32: `count` unsigned 32-bit numbers. */
export function uint32(seed: number, count: number): Uint32Array {
  const out = new Uint32Array(count);
  let state = seed >>> 0;
  for (let i = 0; i < count; i++) {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), state | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    out[i] = t ^ (t >>> 14);
  }
  return out;
}

/** Uniform on −1…+1, white. */
export function noise(seed: number, count: number): Float64Array {
  return Float64Array.from(uint32(seed, count), (u) => u / 2147483648 - 1);
}

/** B = A inverted, 13 samples late, 0.7 as loud, with a third of noise; neither holds anything at 0 Hz or Nyquist. */
export function gccPair(length: number): [a: Float64Array, b: Float64Array] {
  const s = noise(11, length + 13);
  const own = noise(12, length);
  const a = s.slice(13);
  const b = own.map((x, i) => -0.7 * s[i] + 0.3 * x);
  for (const x of [a, b]) {
    const mean = x.reduce((sum, v) => sum + v, 0) / length;
    for (let i = 0; i < length; i++) x[i] -= mean;
    const turn = x.reduce((sum, v, i) => sum + (i % 2 === 0 ? v : -v), 0) / length;
    for (let i = 0; i < length; i++) x[i] -= i % 2 === 0 ? turn : -turn;
  }
  return [a, b];
}

/** Sixty tones, 100 … 4000 Hz, phases from noise; `delay` in samples at 48 kHz, `taper` the share of a Tukey window. */
export function tones(delay: number, count: number, taper: number): Float64Array {
  const start = noise(21, 60);
  const edge = (taper * (count - 1)) / 2;
  return Float64Array.from({ length: count }, (_, i) => {
    let x = 0;
    for (let k = 0; k < 60; k++) {
      const hz = 100 * 40 ** (k / 59);
      x += Math.cos((2 * Math.PI * hz * (i - delay)) / 48000 + Math.PI * start[k]);
    }
    const near = Math.min(i, count - 1 - i);
    const w = near >= edge ? 1 : 0.5 - 0.5 * Math.cos((Math.PI * near) / edge);
    return (w * x) / 60;
  });
}

/** The pairs of the power and cross spectra: 16 stretches of 5040 samples. */
export function sumPair(name: string, count: number): [a: Float64Array, b: Float64Array] {
  const s = noise(31, count + 5);
  const [p, q] = [noise(32, count), noise(33, count)];
  if (name === 'unrelated') return [p, q];
  if (name === 'late') return [p.map((x, i) => s[i + 5] + 0.1 * x), q.map((x, i) => -s[i] + 0.1 * x)];
  const own = 10 ** (-10 / 20);
  return [p.map((x, i) => s[i + 5] + own * x), q.map((x, i) => 0.5 * (s[i + 5] + own * x))];
}

/** One second of next to nothing, one second of a common noise with each channel's own. */
export function runningPair(): [a: Float64Array, b: Float64Array] {
  const [s, p, q] = [51, 52, 53].map((seed) => noise(seed, 96000).map((x, i) => x * (i < 48000 ? 1e-4 : 0.1)));
  return [s.map((x, i) => x + 0.5 * p[i]), s.map((x, i) => -0.3 * x + 0.2 * q[i])];
}
