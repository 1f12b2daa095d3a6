import { expect, it } from 'vitest';
import { pulseAt, spanMs } from '../../src/teaching/bench/arrivals';
import { freshBench } from '../../src/teaching/bench/edits';

it('a push begins at its arrival, goes up first, and swings back by less', () => {
  const pulse = Array.from({ length: 2000 }, (_, i) => pulseAt(i / 1000));
  expect(pulseAt(-0.01)).toBe(0);
  expect(pulse[0]).toBe(0);
  const top = pulse.indexOf(Math.max(...pulse));
  const dip = pulse.indexOf(Math.min(...pulse));
  expect(top).toBeLessThan(dip);
  expect(pulse[top]).toBeCloseTo(1, 1);
  expect(Math.abs(pulse[dip] as number)).toBeLessThan(0.5);
  expect(pulse.at(-1)).toBeCloseTo(0, 3);
});

it('the axis is long enough for the later push, and never jumps between two that are alike', () => {
  const bench = freshBench('snare', [-10, 20], [10, 20]);
  for (const delay of [0, 0.5, -1.2, 3, 9, 20]) {
    expect(spanMs(delay, bench)).toBeGreaterThanOrEqual(Math.abs(delay) + 0.9);
  }
  expect(spanMs(0.4, bench)).toBe(spanMs(0.6, bench));
});
