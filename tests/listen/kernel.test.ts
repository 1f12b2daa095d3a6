/** The kernels against SciPy's (tests/reference/kernel.py), and what they delay by, from their own Fourier sum in closed form. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { BASE_SAMPLES, TAPS, writeKernel } from '../../src/listen/kernel';

const reference = JSON.parse(readFileSync(new URL('../reference/kernel.json', import.meta.url), 'utf8')) as {
  kernels: { fraction: number; taps: number[] }[];
};

function kernelOf(fraction: number): Float64Array {
  const kernel = new Float64Array(TAPS);
  writeKernel(kernel, fraction);
  return kernel;
}

/** Phase delay, samples, and magnitude, dB, at a frequency. */
function responseOf(kernel: Float64Array, hz: number, sampleRate: number) {
  const w = (2 * Math.PI * hz) / sampleRate;
  let re = 0;
  let im = 0;
  // turned by the base latency first, so that the phase left stays within half a turn
  for (let k = 0; k < TAPS; k++) {
    re += (kernel[k] as number) * Math.cos(w * (k - BASE_SAMPLES));
    im -= (kernel[k] as number) * Math.sin(w * (k - BASE_SAMPLES));
  }
  return { delay: -Math.atan2(im, re) / w, db: 20 * Math.log10(Math.hypot(re, im)) };
}

test.each(reference.kernels)('the kernel of $fraction is SciPy’s', ({ fraction, taps }) => {
  const own = kernelOf(fraction);
  for (let k = 0; k < TAPS; k++) expect(own[k]).toBeCloseTo(taps[k] as number, 12);
});

test.each([44_100, 48_000, 96_000])(
  'at %i Hz the delay is within 0.001 sample and the level within 0.01 dB, 50 Hz–10 kHz',
  (rate) => {
    for (const fraction of [0, 0.05, 0.1, 0.25, 1 / 3, 0.5, 0.731, 0.9, 0.999]) {
      const kernel = kernelOf(fraction);
      for (let hz = 50; hz <= 10_000; hz *= 1.05) {
        const { delay, db } = responseOf(kernel, hz, rate);
        expect(Math.abs(delay - fraction), `${fraction} at ${hz} Hz`).toBeLessThan(0.001);
        expect(Math.abs(db), `${fraction} at ${hz} Hz`).toBeLessThan(0.01);
      }
    }
  },
);

test('what isn’t delayed by a fraction isn’t touched, and a wrong length is refused', () => {
  const kernel = kernelOf(0);
  expect([...kernel].filter((tap) => tap !== 0)).toEqual([1]);
  expect(kernel[BASE_SAMPLES]).toBe(1);
  expect(() => writeKernel(new Float64Array(3), 0)).toThrow('must have length 64 but had length 3');
});
