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
  const [shelf, highPass] = kWeighting(sampleRate);
  const [b0, b1, b2] = shelf.b;
  const [a1, a2] = shelf.a;
  const [c1, c2] = highPass.a;
  const n = loop.length;
  let x1 = 0;
  let x2 = 0;
  let y1 = 0;
  let y2 = 0;
  let z1 = 0;
  let z2 = 0;
  let sum = 0;
  for (let round = 0; round < 2; round++) {
    sum = 0;
    for (let i = 0; i < n; i++) {
      const x = loop[i] as number;
      const y = b0 * x + b1 * x1 + b2 * x2 - a1 * y1 - a2 * y2;
      // the first section's output is the second's input, so its past serves both
      const z = y - 2 * y1 + y2 - c1 * z1 - c2 * z2;
      x2 = x1;
      x1 = x;
      y2 = y1;
      y1 = y;
      z2 = z1;
      z1 = z;
      sum += z * z;
    }
  }
  return n === 0 ? 0 : sum / n;
}

/** LKFS of mean squares after K, ears added; −∞ of silence. */
export function loudnessLkfs(left: number, right: number): number {
  return -0.691 + 10 * Math.log10(left + right);
}
