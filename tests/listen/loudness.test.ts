/**
 * Loudness against ITU-R BS.1770: its printed coefficients for 48 kHz, and its sine of 997 Hz at 0 dBFS in one channel, −3.01 LKFS
 * (both from memory).
 */
import { expect, test } from 'vitest';
import { kMeanSquare, kWeighting, loudnessLkfs } from '../../src/listen/loudness';

test('at 48 kHz the weighting has the recommendation’s own coefficients', () => {
  const [shelf, highPass] = kWeighting(48_000);
  const printed = [1.53512485958697, -2.69169618940638, 1.19839281085285, -1.69065929318241, 0.73248077421585];
  [...shelf.b, ...shelf.a].forEach((own, i) => {
    expect(own).toBeCloseTo(printed[i] as number, 10);
  });
  expect(highPass.b).toEqual([1, -2, 1]);
  [-1.99004745483398, 0.99007225036621].forEach((own, i) => {
    expect(highPass.a[i]).toBeCloseTo(own, 10);
  });
});

test.each([44_100, 48_000, 88_200, 96_000])('997 Hz at full scale in one ear is −3.01 LKFS, at %i Hz too', (rate) => {
  // at higher rates the bilinear transform bends the shelf less: 0.02 dB
  // whole periods, so that the loop has no seam
  const sine = Float64Array.from({ length: rate }, (_, i) => Math.sin((2 * Math.PI * 997 * i) / rate));
  const one = kMeanSquare(sine, rate);
  expect(loudnessLkfs(one, 0)).toBeCloseTo(-3.01, rate > 48_000 ? 1 : 2);
  expect(loudnessLkfs(one, one)).toBeCloseTo(0, rate > 48_000 ? 1 : 2);
});

test('silence is −∞', () => {
  expect(loudnessLkfs(kMeanSquare(new Float32Array(4800), 48_000), 0)).toBe(Number.NEGATIVE_INFINITY);
});
