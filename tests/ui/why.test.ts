import { describe, expect, it } from 'vitest';
import { nextDrum } from '../../src/ui/nextDrum';
import { ticksMs, wavePath } from '../../src/ui/wavePath';
import { drum, reading } from '../advice/readings';

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
  it('goes from the loudest in A through each drum and back', () => {
    const drums = [drum(3), drum(7)];
    expect(nextDrum(reading({ drums, drum: 3 }))).toBe(3);
    expect(nextDrum(reading({ drums, drum: 3, drumChosen: true }))).toBe(7);
    expect(nextDrum(reading({ drums, drum: 7, drumChosen: true }))).toBeNull();
    // one that has gone
    expect(nextDrum(reading({ drums, drum: 5, drumChosen: true }))).toBe(3);
    expect(nextDrum(null)).toBeNull();
  });
});
