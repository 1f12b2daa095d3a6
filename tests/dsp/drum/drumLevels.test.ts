/** By what a drum's own microphone is known: how loud it is above 1 kHz in A and in B, and which of them hears it first. */
import { describe, expect, it } from 'vitest';
import { Sorting } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import { type MadeHit, times, twice } from '../../support/rules/rules';

const plus = (print: readonly number[], more: readonly number[]): number[] => print.map((v, i) => v + more[i]);
const all = (dB: number): number[] => Array(16).fill(dB);
const SNARE = twice([10, 30, 25, 20, 5, 25, 20, 15]);
const KICK = twice([40, 20, 5, 0, 35, 15, 0, -5]);

describe('how loud a drum is in A and in B', () => {
  /** the drum with these levels in the bands above 1 kHz of A, and 10 dB less in those of B */
  const hit = (...aboveKhz: [number, number]): MadeHit => ({
    print: [...Array(6).fill(30), ...aboveKhz, ...Array(6).fill(30), ...aboveKhz.map((dB) => dB - 10)],
  });
  /** two bands of one level are 3 dB more */
  const TWO = 10 * Math.log10(2);

  it.each(
    named<{ name: string; hits: MadeHit[]; inA: number }>([
      { name: 'one hit', hits: [hit(20, 20)], inA: 20 + TWO },
      { name: 'powers of the two bands above 1 kHz', hits: [hit(20, 20 + 10 * Math.log10(3))], inA: 20 + 2 * TWO },
      { name: 'two hits: their mean', hits: [hit(20, 20), hit(26, 26)], inA: 23 + TWO },
      {
        name: 'the loudest two of six',
        hits: [hit(20, 20), hit(24, 24), ...times(3, hit(18, 18)), hit(26, 26)],
        inA: 25 + TWO,
      },
      {
        name: 'the loudest two, also when long ago',
        hits: [hit(26, 26), hit(24, 24), ...times(200, hit(20, 20))],
        inA: 25 + TWO,
      },
      {
        name: 'whatever is below',
        hits: times(3, { print: plus(hit(20, 20).print ?? [], [9, 9, 9, 9, 9, 9, 0, 0, ...Array(8).fill(0)]) }),
        inA: 20 + TWO,
      },
    ]),
  )('%s', (_, { hits, inA }) => {
    const sorting = new Sorting();
    expect(new Set(sorting.strikeAll(hits))).toEqual(new Set([1]));
    expect(sorting.levels(1)[0]).toBeCloseTo(inA, 9);
    expect(sorting.levels(1)[1]).toBeCloseTo(inA - 10, 9);
  });

  it('is known of those that sound alike, once they are parted, by their own hits', () => {
    const sorting = new Sorting();
    const low = (us: number, dB: number): MadeHit => ({ print: plus(KICK, all(dB)), lowUs: us });
    sorting.strikeAll([low(0, 0), low(500, -6), low(0, 2), low(500, -8), low(0, -3), low(500, -9)]);
    expect(sorting.levels(1)[0]).toBeCloseTo(1 + TWO, 9);
    expect(sorting.levels(2)[0]).toBeCloseTo(-7 + TWO, 9);
  });
});

describe('which microphone hears a drum first', () => {
  const heard = (...delaysUs: number[]): MadeHit[] => delaysUs.map((delayUs) => ({ print: SNARE, delayUs }));
  it.each(
    named([
      { name: 'A, by more than 0.3 ms', hits: heard(301, 301), first: 1 },
      { name: 'both at once, within 0.3 ms', hits: heard(299, -299), first: 0 },
      { name: 'B, by more than 0.3 ms', hits: heard(-301), first: -1 },
      { name: 'A in three of four', hits: heard(900, -900, 900, 900), first: 1 },
      { name: 'A in twice as many as B: nobody knows', hits: heard(900, -900, 900), first: 0 },
      { name: 'hits without a first push tell nothing', hits: heard(Number.NaN, 900, Number.NaN, 100), first: 1 },
      {
        name: 'nor do those that aren’t worked out',
        hits: [...heard(-900), { print: SNARE, hasArrival: false }],
        first: -1,
      },
      { name: 'of none that tells', hits: heard(Number.NaN), first: 0 },
    ]),
  )('%s', (_, { hits, first }) => {
    const sorting = new Sorting();
    // another drum's hits say nothing of it
    sorting.strikeAll([...hits, ...times(5, { print: KICK, delayUs: 5000 })]);
    expect(sorting.heardFirst(1)).toBe(first);
  });
});
