import { describe, expect, it } from 'vitest';
import { firstHalfWave, firstOver, foot, HalfWave, riseOver } from '../../../src/dsp/signal/foot';
import { peakOf } from '../../../src/dsp/signal/peak';

/** Silence, a positive half-wave of five samples that rises from sample 10 on, a longer negative one. */
const x = Float64Array.from({ length: 40 }, (_, i) => {
  if (i >= 10 && i < 15) return [1, 4, 8, 6, 3][i - 10] as number;
  if (i >= 15 && i < 30) return -20 * Math.sin((Math.PI * (i - 14.5)) / 15);
  return 0;
});

function find(threshold: number, leastFrames: number, from = 0, to = 40): HalfWave | null {
  const out = new HalfWave();
  return firstHalfWave(x, from, to, 40, threshold, leastFrames, out) ? out : null;
}

describe('the first half-wave', () => {
  it('is the first that rises over the threshold: way, height, place', () => {
    expect(find(3, 2)).toEqual({ sign: 1, summit: 8, summitAt: 12 });
    expect(find(8, 2)).toEqual({ sign: 1, summit: 8, summitAt: 12 });
  });

  it('counts whole, from its beginning, whatever the threshold', () => {
    expect(find(7, 5)).toEqual({ sign: 1, summit: 8, summitAt: 12 });
  });

  it('is passed over where it is too short or too low', () => {
    expect(find(3, 6)).toMatchObject({ sign: -1, summitAt: 22 });
    expect(find(8.1, 2)).toMatchObject({ sign: -1, summit: x[22] ? -x[22] : 0 });
  });

  it('is none where nothing rises so far, or in time', () => {
    expect(find(21, 2)).toBeNull();
    expect(find(3, 2, 0, 11)).toBeNull();
    expect(find(3, 16)).toBeNull();
  });
});

describe('the foot', () => {
  it('lies where the rise crosses the level, on a straight line between samples', () => {
    // 10 % of 8 is 0.8: between 0 at 9 and 1 at 10
    expect(foot(x, 0, 12, 1, 0.8)).toBeCloseTo(9.8, 12);
    // 50 %: 4 is not above the level
    expect(foot(x, 0, 12, 1, 4)).toBe(11);
    expect(foot(x, 0, 12, 1, 5)).toBeCloseTo(11.25, 12);
    expect(riseOver(x, 0, 12, 1, 5)).toBe(12);
    expect(riseOver(x, 0, 12, 1, 3.9)).toBe(11);
  });

  it('is found in a half-wave that goes down as well', () => {
    const half = find(10, 2, 15) as HalfWave;
    const at = foot(x, 15, half.summitAt, half.sign, 0.1 * half.summit);
    const turned = x.map((v) => -v);
    expect(half.sign).toBe(-1);
    expect(foot(turned, 15, half.summitAt, 1, 0.1 * half.summit)).toBe(at);
  });

  it('is not looked for before the beginning of what may be looked at', () => {
    expect(riseOver(x, 11, 12, 1, 0.8)).toBe(11);
  });
});

describe('levels of a stretch', () => {
  it('the first sample that reaches a level, either way', () => {
    expect(firstOver(x, 0, 40, 4)).toBe(11);
    expect(firstOver(x, 14, 40, 4)).toBeGreaterThanOrEqual(15);
    expect(firstOver(x, 0, 8, 4)).toBe(8);
    expect(firstOver(Float32Array.from([0, -5]), 0, 2, 4)).toBe(1);
  });

  it('the largest, either way', () => {
    expect(peakOf(x, 0, 15)).toBe(8);
    expect(peakOf(x, 0, 40)).toBeCloseTo(20, 9);
    expect(peakOf(x, 3, 3)).toBe(0);
  });
});
