/** The last samples of a channel, by their frame number. */
import { describe, expect, it } from 'vitest';
import { Ring } from '../../../src/dsp/signal/ring';

const count = (from: number, n: number): Float64Array => Float64Array.from({ length: n }, (_, i) => from + i);

/** Frame n holds n + 1, pushed in blocks. */
function filled(atLeast: number, frames: number, block: number): Ring {
  const ring = new Ring(atLeast);
  for (let i = 0; i < frames; i += block) ring.push(count(i + 1, block), Math.min(block, frames - i));
  return ring;
}

describe('a ring', () => {
  it.each([
    { atLeast: 1, capacity: 2 },
    { atLeast: 8, capacity: 8 },
    { atLeast: 9, capacity: 16 },
    { atLeast: 48000, capacity: 65536 },
  ])('for $atLeast frames holds $capacity', ({ atLeast, capacity }) =>
    expect(new Ring(atLeast).capacity).toBe(capacity),
  );

  it.each([1, 3, 8, 20])('holds the newest, pushed in blocks of %i, and 0 outside', (block) => {
    const ring = filled(8, 20, block);
    expect(ring.end).toBe(20);
    expect([11, 12, 13, 19, 20].map((n) => ring.at(n))).toEqual([0, 13, 14, 20, 0]);
  });

  it.each([
    { name: 'what is there', from: 13, expected: [14, 15, 16, 17] },
    { name: 'what has just come', from: 16, expected: [17, 18, 19, 20] },
    { name: 'partly not there yet', from: 18, expected: [19, 20, 0, 0] },
    { name: 'partly gone', from: 10, expected: [0, 0, 13, 14] },
    { name: 'before the start', from: -2, expected: [0, 0, 0, 0] },
  ])('copies $name', ({ from, expected }) => {
    const out = new Float64Array(6).fill(-1);
    filled(8, 20, 5).copy(from, out, 4);
    expect([...out]).toEqual([...expected, -1, -1]);
  });

  it('copies to a place within', () => {
    const out = new Float64Array(5).fill(-1);
    filled(8, 20, 5).copy(13, out, 3, 1);
    expect([...out]).toEqual([-1, 14, 15, 16, -1]);
  });

  it.each([
    { name: 'what is there', from: 13, to: 17, expected: 17 },
    { name: 'partly not there yet', from: 18, to: 30, expected: 20 },
    { name: 'partly gone', from: 5, to: 14, expected: 14 },
    { name: 'gone', from: 2, to: 9, expected: 0 },
    { name: 'nothing', from: 15, to: 15, expected: 0 },
  ])('has the peak of $name', ({ from, to, expected }) => {
    const ring = filled(8, 20, 5);
    expect(ring.peak(from, to)).toBe(expected);
    const turned = new Ring(8);
    turned.push(count(-20, 20), 20);
    expect(turned.peak(15, 17)).toBe(5);
  });

  it('has frames before the first as 0', () => {
    const ring = filled(8, 3, 3);
    const out = new Float64Array(4);
    ring.copy(-2, out, 4);
    expect([...out]).toEqual([0, 0, 1, 2]);
  });

  it('begins anew', () => {
    const ring = filled(8, 20, 5);
    ring.clear();
    expect([ring.end, ring.at(0), ring.at(15)]).toEqual([0, 0, 0]);
    ring.push(count(7, 2), 2);
    expect([ring.at(0), ring.at(1), ring.at(2)]).toEqual([7, 8, 0]);
  });
});
