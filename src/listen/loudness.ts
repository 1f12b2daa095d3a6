/**
 * Loudness of a loop: mean square after the K weighting of ITU-R BS.1770, both ears added, no gate (a loop has no pauses to
 * leave out).
 */

interface Section {
  b: readonly [number, number, number];
  a: readonly [number, number];
}

/**
 * The two sections of K for any rate. The recommendation prints coefficients for 48 kHz alone; these are the filters behind
 * them, by bilinear transform (their frequencies, gain and Qs from memory, as general loudness libraries have them); the test
 * holds them against the printed ones.
 */
export function kWeighting(sampleRate: number): readonly [shelf: Section, highPass: Section] {
  const k = Math.tan((Math.PI * 1681.974450955533) / sampleRate);
  const q = 0.7071752369554196;
  const high = 10 ** (3.999843853973347 / 20);
  const band = high ** 0.4996667741545416;
  const a0 = 1 + k / q + k * k;
  const shelf: Section = {
    b: [(high + (band * k) / q + k * k) / a0, (2 * (k * k - high)) / a0, (high - (band * k) / q + k * k) / a0],
    a: [(2 * (k * k - 1)) / a0, (1 - k / q + k * k) / a0],
  };
  const low = Math.tan((Math.PI * 38.13547087602444) / sampleRate);
  const lowQ = 0.5003270373238773;
  const l0 = 1 + low / lowQ + low * low;
  const highPass: Section = { b: [1, -2, 1], a: [(2 * (low * low - 1)) / l0, (1 - low / lowQ + low * low) / l0] };
  return [shelf, highPass];
}

/** Mean square of one channel after K; it is heard round and round, so it is run through twice and the second time counts. */
export function kMeanSquare(loop: ArrayLike<number>, sampleRate: number): number {
  const [s, h] = kWeighting(sampleRate);
  let [x1, x2, y1, y2, z1, z2] = [0, 0, 0, 0, 0, 0];
  let sum = 0;
  const n = loop.length;
  for (let i = 0; i < 2 * n; i++) {
    if (i === n) sum = 0;
    const x = loop[i % n] as number;
    const y = s.b[0] * x + s.b[1] * x1 + s.b[2] * x2 - s.a[0] * y1 - s.a[1] * y2;
    // the first section's output is the second's input, so its past serves both
    const z = h.b[0] * y + h.b[1] * y1 + h.b[2] * y2 - h.a[0] * z1 - h.a[1] * z2;
    [x2, x1, y2, y1, z2, z1] = [x1, x, y1, y, z1, z];
    sum += z * z;
  }
  return n === 0 ? 0 : sum / n;
}

/** LKFS of mean squares after K, ears added; −∞ of silence. */
export function loudnessLkfs(left: number, right: number): number {
  return -0.691 + 10 * Math.log10(left + right);
}
