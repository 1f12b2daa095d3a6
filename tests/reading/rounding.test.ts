import { expect, it } from 'vitest';
import { nearest, roundDelayMs, roundPathCm } from '../../src/reading/rounding';

it.each([
  [2.7, 0, 2.5],
  [-2.75, 0, -3],
  [12.4, 0, 12],
  [12.4, 3, 12],
  [13.2, 5, 15],
  [0.1, 0, 0],
  [-0.1, 0, 0],
])('a path of %s cm, known to %s cm, is said as %s cm', (pathCm, accuracyCm, said) => {
  expect(Object.is(roundPathCm(pathCm, accuracyCm), said)).toBe(true);
});

it('rounds a delay to what is known of it, alike on both sides of zero', () => {
  expect([0.123, -0.123, 0.045].map((ms) => roundDelayMs(ms, 0))).toEqual([0.12, -0.12, 0.05]);
  expect(roundDelayMs(0.123, 0.1)).toBe(0.1);
  expect(Object.is(roundDelayMs(-0.001, 0), 0)).toBe(true);
});

it('rounds halves away from zero, never to −0', () => {
  expect([2.5, -2.5, 0.4, -0.4].map(nearest)).toEqual([3, -3, 0, 0]);
});
