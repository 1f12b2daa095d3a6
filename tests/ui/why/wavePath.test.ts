import { describe, expect, it } from 'vitest';
import type { Reading } from '../../../src/reading/reading';
import { DrumStep } from '../../../src/ui/meter/drumStep';
import { ticksMs, wavePath } from '../../../src/ui/why/wavePath';
import { drum, reading } from '../../advice/readings';

describe('the outline of a waveform', () => {
  it('goes along the largest values and back along the least', () => {
    const columns = Float32Array.from([-0.5, 0.25, -1, 1]);
    expect(wavePath(columns, 100, 50, 40)).toBe('M25.0 40.0L75.0 10.0L75.0 90.0L25.0 70.0Z');
  });

  it('has a hole where nothing was kept', () => {
    const gap = Number.NaN;
    const path = wavePath(Float32Array.from([0, 0, gap, gap, 0, 1]), 30, 0, 1);
    expect(path).toBe('M5.0 0.0L5.0 0.0ZM25.0 -1.0L25.0 0.0Z');
    expect(wavePath(Float32Array.from([gap, gap]), 30, 0, 1)).toBe('');
  });
});

describe('the time axis', () => {
  it.each([
    [-2, 8, [-2, -1, 0, 1, 2, 3, 4, 5, 6]],
    [-0.5, 2.5, [-0.5, 0, 0.5, 1, 1.5, 2]],
    [-2, 11, [-2, 0, 2, 4, 6, 8]],
    [-2, 42, [0, 5, 10, 15, 20, 25, 30, 35, 40]],
  ])('from %f ms over %f ms', (from, length, ticks) => {
    const got = ticksMs(from, length);
    expect(got.length).toBe(ticks.length);
    for (const [i, tick] of ticks.entries()) expect(got[i]).toBeCloseTo(tick, 9);
  });
});

describe('the key for drums', () => {
  const drums = [drum(3), drum(7)];
  const chosen = (id: number): Reading => ({ ...reading({ drums, drum: 3, drumChosen: true }), drum: id });
  const loudest = reading({ drums, drum: 3 });

  it('goes from the meter’s pick through each drum and back', () => {
    const step = new DrumStep();
    expect(step.next(loudest, 0)).toBe(3);
    expect(step.next(chosen(3), 1000)).toBe(7);
    expect(step.next(chosen(7), 2000)).toBeNull();
    expect(step.next(loudest, 3000)).toBe(3);
    // one that has gone
    expect(step.next(chosen(5), 4000)).toBe(3);
  });

  it('does not wait for the readings to follow', () => {
    const step = new DrumStep();
    expect([0, 100, 200, 300].map((ms) => step.next(loudest, ms))).toEqual([3, 7, null, 3]);
  });
});
