/** Second-order Butterworth high- or low-pass, bilinear (R. Bristow-Johnson, Audio EQ Cookbook, W3C Note 2021, Q = 1/√2). */
export function filtered(x: Float32Array, kind: 'high' | 'low', hz: number, sampleRate: number): Float32Array {
  const w = (2 * Math.PI * hz) / sampleRate;
  const alpha = Math.sin(w) / Math.SQRT2;
  const cos = Math.cos(w);
  const a0 = 1 + alpha;
  const edge = kind === 'high' ? 1 + cos : 1 - cos;
  const [b0, b1, b2] = [edge / 2 / a0, (kind === 'high' ? -edge : edge) / a0, edge / 2 / a0];
  const [a1, a2] = [(-2 * cos) / a0, (1 - alpha) / a0];
  const y = new Float32Array(x.length);
  let [x1, x2, y1, y2] = [0, 0, 0, 0];
  for (let i = 0; i < x.length; i++) {
    const v = x[i] as number;
    const out = b0 * v + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
    [x2, x1, y2, y1] = [x1, v, y1, out];
    y[i] = out;
  }
  return y;
}
