/** The test support's own resampler, against the sine that it should give. */
import { expect, it } from 'vitest';
import { pinkNoise } from './pinkNoise';
import { resample, shift } from './resample';

const sine = (hz: number, rate: number, frames: number, late = 0): Float64Array =>
  Float64Array.from({ length: frames }, (_, i) => Math.sin((2 * Math.PI * hz * (i - late)) / rate));

function worst(x: Float64Array, y: Float64Array): number {
  let most = 0;
  for (let i = 200; i < Math.min(x.length, y.length) - 200; i++) most = Math.max(most, Math.abs(x[i] - y[i]));
  return most;
}

it.each([
  [44100, 48000, 100],
  [44100, 48000, 15000],
  [44100, 96000, 1000],
  [44100, 96000, 18000],
  [48000, 44100, 9000],
])('from %i to %i Hz a tone of %i Hz stays itself', (from, to, hz) => {
  expect(
    worst(resample(sine(hz, from, 4410), from, to, 'full'), sine(hz, to, Math.floor((4410 * to) / from))),
  ).toBeLessThan(2e-3);
});

it('an anti-alias filter takes away what would fold', () => {
  const out = resample(sine(30000, 176400, 17640), 176400, 44100, 'converter');
  expect(out.slice(200, -200).reduce((most, v) => Math.max(most, Math.abs(v)), 0)).toBeLessThan(2e-3);
});

it.each([0.37, 7.5, -3.25, 4])('a shift by %f samples is one', (late) => {
  for (const hz of [80, 3000, 16000])
    expect(worst(shift(sine(hz, 44100, 3000), late), sine(hz, 44100, 3000, late))).toBeLessThan(2e-3);
});

it('pink noise has RMS 1 and falls by 3 dB an octave', () => {
  let state = 1;
  const uniform = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return (state >>> 8) / 2 ** 24;
  };
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const x = pinkNoise(1 << 16, normal);
  expect(Math.sqrt(x.reduce((sum, v) => sum + v * v, 0) / x.length)).toBeCloseTo(1, 6);
  const power = (hz: number): number => {
    let sum = 0;
    for (let part = 0; part < 64; part++) {
      let re = 0;
      let im = 0;
      for (let i = 0; i < 1024; i++) {
        const v = x[part * 1024 + i] * (0.5 - 0.5 * Math.cos((2 * Math.PI * i) / 1024));
        re += v * Math.cos((2 * Math.PI * hz * i) / 44100);
        im += v * Math.sin((2 * Math.PI * hz * i) / 44100);
      }
      sum += re * re + im * im;
    }
    return sum;
  };
  const octave = (low: number): number =>
    [0, 1, 2, 3, 4, 5, 6, 7].reduce((sum, k) => sum + power(low * 2 ** (k / 8)), 0);
  expect(10 * Math.log10(octave(1000) / octave(8000))).toBeGreaterThan(7);
  expect(10 * Math.log10(octave(1000) / octave(8000))).toBeLessThan(11);
});
