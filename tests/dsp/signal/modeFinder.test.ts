import { describe, expect, it } from 'vitest';
import { median } from '../../../src/dsp/signal/median';
import { Mode, ModeFinder } from '../../../src/dsp/signal/modeFinder';

describe('the median', () => {
  it('is the middle one, or the mean of the middle two, of the first n', () => {
    expect(median(Float64Array.from([5, -1, 3, 99]), 3)).toBe(3);
    expect(median(Float64Array.from([5, -1, 3, 4]), 4)).toBe(3.5);
    expect(median(Float64Array.from([7]), 1)).toBe(7);
    expect(median(new Float64Array(4), 0)).toBeNaN();
  });
});

describe('the mode', () => {
  // 0.08 ms at 48 kHz: 3.84 samples
  const RATE = 48000;
  const found = (hits: [value: number, sign: number, weight?: number][]): { mode: Mode; members: number[] } => {
    const finder = new ModeFinder(0.00008 * RATE, 8, 16);
    const mode = new Mode();
    hits.forEach(([value, sign, weight = 1], i) => {
      finder.value[i] = value;
      finder.sign[i] = sign;
      finder.weight[i] = weight;
    });
    finder.find(hits.length, mode);
    return { mode, members: [...finder.member.slice(0, hits.length)] };
  };

  it('is where most weight lies within 0.08 ms, with one sign', () => {
    const { mode, members } = found([
      [10, 1],
      [11, 1],
      [12, 1],
      [10, -1],
      [11, -1],
      [40, 1],
      [11, 1, 0],
    ]);
    expect(members).toEqual([1, 1, 1, 0, 0, 0, 0]);
    expect(mode).toMatchObject({ members: 3, candidates: 6, share: 0.5, delay: 11, sign: 1, spread: 1 });
  });

  it('goes by weight, not by number', () => {
    const { mode } = found([
      [10, 1, 0.2],
      [10, 1, 0.2],
      [10, 1, 0.2],
      [30, -1, 1],
    ]);
    expect(mode).toMatchObject({ members: 1, candidates: 4, delay: 30, sign: -1, spread: 0 });
    expect(mode.share).toBeCloseTo(1 / 1.6, 12);
  });

  it('takes its delay from the newest eight members, its spread from all', () => {
    const { mode } = found(Array.from({ length: 12 }, (_, i) => [i < 4 ? 12 : 10, 1] as [number, number]));
    expect(mode).toMatchObject({ members: 12, delay: 10, spread: 0 });
  });

  it('of none is none', () => {
    expect(found([]).mode).toMatchObject({ members: 0, candidates: 0, share: 0, sign: 0, delay: Number.NaN });
    expect(found([[3, 1, 0]]).mode).toMatchObject({ members: 0, candidates: 0, sign: 0 });
  });
});
