/** What A+B comes to at any delay near the arrival, as a sheet keeps it. */
import { expect, test } from 'vitest';
import { sumByDelayOf, swappedSum, timingAt, turnedSum } from '../../../src/advice/plan/sumByDelay';
import { timingsOf } from '../../../src/advice/plan/timings';
import { NEAR_BANDS, NEAR_POINTS } from '../../../src/reading/bands';
import { changed } from '../../support/readings/flat';
import { measured, RATE } from '../readings';

/** Re γ by samples that A is delayed */
const low = (d: number): number => 0.8 * Math.cos((2 * Math.PI * 250 * (d - 95)) / RATE);
const all = (d: number): number =>
  0.5 * Math.cos((2 * Math.PI * 900 * (d - 96)) / RATE) * Math.exp(-(((d - 96) / 60) ** 2));
const bands = Array.from({ length: NEAR_BANDS }, (_, n) =>
  Float64Array.from({ length: NEAR_POINTS }, (_, i) => (n === 0 ? low : all)(96 + i - 60)),
);
const READ = changed(measured('same', 68.5), {
  now: [low(0), all(0), null, null, null, null],
  near: { centreSamples: 96, stepSamples: 1, bands },
});
const ms = (samples: number): number => (samples / RATE) * 1000;
const sum = sumByDelayOf(READ.sum, RATE, false);
if (sum === null) throw new Error('nothing is known');

test('121 delays, ±60 samples round the arrival, each Re γ to a thousandth', () => {
  expect([sum.low?.length, sum.all?.length, sum.stepMs]).toEqual([121, 121, ms(1)]);
  expect(sum.fromMs).toBeCloseTo(ms(36), 9);
  expect(sum.low?.[60]).toBe(Number(low(96).toFixed(3)));
  for (const re of [...(sum.low ?? []), ...(sum.all ?? [])]) expect(re * 1000).toBeCloseTo(Math.round(re * 1000), 9);
});

test('of every delay that the meter offers the same as the meter told, and of those between', () => {
  const timings = timingsOf(READ, { kind: 'close-overhead', temperatureC: 20, invertB: false });
  const offered = timings.filter(({ delayMs }) => delayMs !== null);
  expect(offered.length).toBeGreaterThan(0);
  for (const one of offered) {
    const told = timingAt(sum, one.delayMs as number);
    for (const band of ['lowDb', 'allDb'] as const) {
      expect(told?.asIs[band]).toBeCloseTo(one.asIs[band] as number, 1);
      expect(told?.inverted[band]).toBeCloseTo(one.inverted[band] as number, 1);
    }
  }
  // by hand: 10·lg(1 ± Re γ)
  const between = timingAt(sum, ms(80.37));
  expect(between?.asIs.lowDb).toBeCloseTo(10 * Math.log10(1 + low(80.37)), 2);
  expect(between?.inverted.allDb).toBeCloseTo(10 * Math.log10(1 - all(80.37)), 2);
});

test('beyond the ends, and of a band that isn’t carried, nothing is known', () => {
  expect(timingAt(sum, ms(35.9))).toBeNull();
  expect(timingAt(sum, ms(156.1))).toBeNull();
  expect(timingAt(sum, ms(36.1))).not.toBeNull();
  const near = {
    centreSamples: 96,
    stepSamples: 1,
    bands: bands.map((band, n) => (n === 0 ? band.map(() => Number.NaN) : band)),
  };
  const half = sumByDelayOf(changed(READ, { near }).sum, RATE, false);
  expect([half?.low, half?.all?.length]).toEqual([null, 121]);
  expect(half && timingAt(half, 2)?.asIs.lowDb).toBeNull();
  expect(sumByDelayOf(changed(READ, { near: null }).sum, RATE, false)).toBeNull();
});

test('the meter’s own invert is no part of it; a switch turned, A and B changed', () => {
  expect(sumByDelayOf(READ.sum, RATE, true)).toEqual(turnedSum(sum));
  const there = timingAt(sum, 1.9);
  expect(timingAt(turnedSum(sum), 1.9)).toEqual({ ...there, asIs: there?.inverted, inverted: there?.asIs });
  const swapped = timingAt(swappedSum(sum), -1.9);
  expect(swapped?.asIs.lowDb).toBeCloseTo(there?.asIs.lowDb as number, 3);
  expect(swappedSum(swappedSum(sum)).fromMs).toBeCloseTo(sum.fromMs, 9);
  expect(swappedSum(swappedSum(sum)).low).toEqual(sum.low);
});
