import { describe, expect, it } from 'vitest';
import { fadeWindow, raisedCosine } from '../../../src/dsp/signal/windows';

describe('a raised cosine', () => {
  it('rises from 0 to 1 by half a period of a cosine', () => {
    expect([-3, 0, 8, 9].map((at) => raisedCosine(at, 8))).toEqual([0, 0, 1, 1]);
    expect(raisedCosine(4, 8)).toBeCloseTo(0.5, 15);
    for (let at = 0; at <= 8; at += 0.5) expect(raisedCosine(at, 8) + raisedCosine(8 - at, 8)).toBeCloseTo(1, 15);
  });
});

describe('a window with fades', () => {
  const half = (angle: number): number => 0.5 - 0.5 * Math.cos(angle);

  // each formula written out, to the bit
  it('read at the middle of its samples is the same from both ends', () => {
    const w = fadeWindow(20, { fadeIn: 5, fadeOut: 5 });
    expect([...w]).toEqual([...w].reverse());
    for (let i = 0; i < 5; i++) expect(w[i]).toBe(half((Math.PI * (i + 0.5)) / 5));
    expect([...w.slice(5, 15)]).toEqual(new Array(10).fill(1));
  });

  it('read at the beginning of its samples begins with 0 and ends above it', () => {
    const w = fadeWindow(30, { fadeIn: 6, fadeOut: 9, at: 0 });
    for (let i = 0; i < 6; i++) expect(w[i]).toBe(half((Math.PI * i) / 6));
    for (let left = 1; left < 9; left++) expect(w[30 - left]).toBe(half((Math.PI * left) / 9));
    expect(w[0]).toBe(0);
    expect(w[29]).toBeGreaterThan(0);
  });

  it('with positions as shares differs in the last bit at most', () => {
    const fades = { fadeIn: 44, fadeOut: 132 };
    const shares = fadeWindow(529, { ...fades, asShare: true });
    for (const [i, w] of fadeWindow(529, fades).entries())
      expect(Math.abs((shares[i] as number) - w)).toBeLessThan(1e-15);
    for (let i = 0; i < 44; i++) expect(shares[i]).toBe(half(Math.PI * ((i + 0.5) / 44)));
  });

  it('shorter than its fades takes the lower of the two', () => {
    const w = fadeWindow(6, { fadeIn: 10, fadeOut: 4 });
    for (let i = 0; i < 6; i++) expect(w[i]).toBe(Math.min(raisedCosine(i + 0.5, 10), raisedCosine(5.5 - i, 4)));
  });
});
