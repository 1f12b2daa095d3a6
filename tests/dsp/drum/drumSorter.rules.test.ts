/**
 * Which drum a hit is of, from made-up fingerprints (dB in eight bands of A, then of B). DEVELOPERS, "How an answer comes
 * about", 5. Where half of the bands lie x dB higher against the other half, the distance with the force taken out is x/2.
 */
import { describe, expect, it } from 'vitest';
import { DRUM_LIMITS, Sorting } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import { type MadeHit, times, twice } from '../../support/rules/rules';

const plus = (print: readonly number[], more: readonly number[]): number[] => print.map((v, i) => v + more[i]);
const all = (dB: number): number[] => Array(16).fill(dB);
const inB = (dB: number): number[] => twice([0, 0, 0, 0, dB, dB, dB, dB]);
const lower = (dB: number): number[] => twice([dB, dB, 0, 0, dB, dB, 0, 0]);
/** in the highest band of both */
const top = (dB: number): number[] => all(0).map((_, i) => (i % 8 === 7 ? dB : 0));

const one = (band: number, dB: number): number[] => all(0).map((_, i) => (i === band ? dB : 0));

const SNARE = twice([10, 30, 25, 20, 5, 25, 20, 15]);
/** its low end begins its hits */
const KICK = twice([40, 20, 5, 0, 35, 15, 0, -5]);
const kick = (more: MadeHit = {}): MadeHit => ({ print: KICK, lowUs: 1000, ...more });
/** a drum of its own for each band */
const kinds = Array.from({ length: 16 }, (_, band) => all(0).map((_v, i) => (i === band ? 40 : 0)));
const kind = (k: number): MadeHit => ({ print: kinds[k] });

describe('two hits are of one drum', () => {
  it.each(
    named([
      { name: 'alike', print: SNARE, one: true },
      { name: 'struck 30 dB softer', print: plus(SNARE, all(-30)), one: true },
      { name: 'B 10.8 dB lower against A: 5.4 dB', print: plus(SNARE, inB(-10.8)), one: true },
      { name: 'B 11.2 dB lower against A: 5.6 dB', print: plus(SNARE, inB(-11.2)), one: false },
      { name: 'the same, struck 30 dB softer', print: plus(plus(SNARE, inB(-11.2)), all(-30)), one: false },
      { name: 'the lower bands 10.8 dB higher in both', print: plus(SNARE, lower(10.8)), one: true },
      { name: 'the lower bands 11.2 dB higher in both', print: plus(SNARE, lower(11.2)), one: false },
      { name: 'another spectrum altogether', print: KICK, one: false },
      // of two of sixteen values 16.8 dB off: √(2·16.8²/16 − (2·16.8/16)²) = 5.56 dB
      { name: 'a cymbal adds 16.5 dB to the top: 5.46 dB', print: plus(SNARE, top(16.5)), one: true },
      { name: 'a cymbal adds 16.8 dB to the top', print: plus(SNARE, top(16.8)), one: false },
      // one value off: √(22.6²/16 − (22.6/16)²) = 5.47 dB, of 22.8 dB 5.52: each band of each channel counts alike
      ...all(0).flatMap((_, band) => [
        { name: `22.6 dB more in band ${band}`, print: plus(SNARE, one(band, 22.6)), one: true },
        { name: `22.8 dB more in band ${band}`, print: plus(SNARE, one(band, 22.8)), one: false },
      ]),
    ]),
  )('%s', (_, { print, one }) => {
    expect(new Sorting().strikeAll([{ print: SNARE }, { print }])).toEqual(one ? [1, 1] : [1, 2]);
  });

  it('if each is nearest to that one of several', () => {
    const sorting = new Sorting();
    // 6 dB apart; the third lies 2.5 dB from the first and 3.5 from the second, the fourth 2.75 (as the first has moved) and 2
    const ids = sorting.strikeAll([0, 12, 5, 8].map((dB) => ({ print: plus(SNARE, inB(dB)) })));
    expect(ids).toEqual([1, 2, 1, 2]);
    expect([sorting.hitsOf(1), sorting.hitsOf(2)]).toEqual([2, 2]);
  });

  // a hit of 10.8 dB moves a centre of twelve by 0.9 dB, and the next is compared with that: 11.87 dB are 5.49, 11.93 dB 5.52
  it.each([
    { dB: 11.87, id: 1 },
    { dB: 11.93, id: 2 },
  ])('as it has sounded over about twelve hits: $dB dB in B, drum $id', ({ dB, id }) => {
    const sorting = new Sorting();
    sorting.strikeAll([...Array(12).fill(0), 10.8].map((more) => ({ print: plus(SNARE, inB(more)) })));
    expect(sorting.strike({ print: plus(SNARE, inB(dB)) })).toBe(id);
  });

  it('as it has sounded on average, not as its first hit did', () => {
    // the centre goes 0, 4, 6, …: 13 dB in B is 6.5 dB from the first, 3.5 from the mean of 0, 8 and 10
    const ids = new Sorting().strikeAll([0, 8, 10, 13].map((dB) => ({ print: plus(SNARE, inB(dB)) })));
    expect(ids).toEqual([1, 1, 1, 1]);
  });
});

describe('of no drum', () => {
  it.each(
    named<{ name: string; hit: MadeHit }>([
      { name: 'clipped in A', hit: { clipped: 1 } },
      { name: 'clipped in B', hit: { clipped: 2 } },
      { name: 'heard in A only', hit: { oneSided: 1 } },
      { name: 'heard in B only', hit: { oneSided: -1 } },
      { name: 'two drums at once', hit: { mixed: true } },
    ]),
  )('is a hit %s, and it begins none', (_, { hit }) => {
    const sorting = new Sorting();
    expect(sorting.strikeAll([{ print: SNARE }, { print: SNARE, ...hit }, { print: KICK, ...hit }])).toEqual([1, 0, 0]);
    expect(sorting.hitsOf(1)).toBe(1);
    expect(sorting.knows(2)).toBe(false);
  });
});

describe('places', () => {
  const firsts = Array.from({ length: DRUM_LIMITS.slots }, (_, k) => kind(k));
  /** all but one of them again and again, up to this many hits in all */
  const until = (hits: number, without: number): MadeHit[] => {
    const others = firsts.filter((_, k) => k !== without);
    return Array.from({ length: hits - firsts.length }, (_, i) => others[i % others.length]);
  };

  it('are ten: an eleventh drum has none while the others are heard', () => {
    const ids = new Sorting().strikeAll([...firsts, kind(10), kind(0)]);
    expect(ids).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 0, 1]);
  });

  it.each(
    named([
      { name: 'the first for 32 hits keeps its place', silent: 0, hits: 32, free: false },
      { name: 'the first for more gives it up, and its hits are nobody’s', silent: 0, hits: 33, free: true },
      { name: 'the fourth for 32 hits keeps its place', silent: 3, hits: 35, free: false },
      { name: 'the fourth for more gives it up', silent: 3, hits: 36, free: true },
    ]),
  )('a drum is not heard: %s', (_, { silent, hits, free }) => {
    const sorting = new Sorting();
    sorting.strikeAll([...firsts, ...until(hits, silent)]);
    expect(sorting.idOf(silent + 1)).toBe(silent + 1);
    expect(sorting.strike(kind(10))).toBe(free ? 11 : 0);
    expect(sorting.knows(silent + 1)).toBe(!free);
    expect(sorting.idOf(silent + 1)).toBe(free ? 0 : silent + 1);
    // one hit later it is time for the other, too
    if (free) expect(sorting.hitsOf(11)).toBe(1);
    else expect(sorting.strike(kind(10))).toBe(11);
  });

  it.each(
    named([
      { name: 'the one hit once, though another was heard longer ago', first: [3, 1], gone: 2 },
      { name: 'the one heard longest ago, where it was hit least', first: [1, 3], gone: 1 },
      { name: 'the first of two hit alike', first: [2, 2], gone: 1 },
    ]),
  )('of two that were not heard for long, %s gives its place up', (_, { first, gone }) => {
    const sorting = new Sorting();
    const [one, two] = first.map((n, k) => times(n, kind(k)));
    sorting.strikeAll([...one, ...two, ...firsts.slice(2)]);
    sorting.strikeAll(Array.from({ length: 40 }, (_v, i) => kind(2 + (i % 8))));
    expect(sorting.strike(kind(10))).toBe(11);
    expect([1, 2].map((id) => sorting.knows(id))).toEqual([gone !== 1, gone !== 2]);
  });

  it('a drum hit often keeps its place, however many others come and go', () => {
    const sorting = new Sorting();
    sorting.strikeAll([...times(12, kind(0)), ...firsts.slice(1)]);
    // the others are each hit once, and each makes room for one that is new
    for (let round = 0; round < 6; round++) {
      sorting.strikeAll(times(33, kind(1)));
      sorting.strike(kind(10 + round));
    }
    expect(sorting.knows(1)).toBe(true);
    expect(sorting.hitsOf(1)).toBe(12);
    expect(sorting.strike(kind(0))).toBe(1);
  });

  it('that are taken over have nothing of the drum before', () => {
    const sorting = new Sorting();
    const led = kind(0);
    sorting.strikeAll(Array(3).fill({ ...led, lowUs: 1000 }));
    expect(sorting.led(1)).toBe(true);
    sorting.strikeAll([...firsts.slice(1), ...until(40, 0)]);
    expect(sorting.strike(kind(10))).toBe(11);
    expect([sorting.led(11), sorting.hitsOf(11)]).toEqual([false, 1]);
    // neither how loud it was, nor its place again
    expect(sorting.levels(11)[0]).toBeCloseTo(10 * Math.log10(2), 9);
  });
});

describe('a drum whose low end leads', () => {
  const soft = (dB: number, more: MadeHit = {}): MadeHit =>
    kick({ print: plus(KICK, all(dB)), lowAlone: false, ...more });

  it.each(
    named([
      { name: 'two of ten hits', led: 2, of: 10, leads: true },
      { name: 'two of eleven', led: 2, of: 11, leads: false },
      { name: 'one of two', led: 1, of: 2, leads: false },
      { name: 'two of two', led: 2, of: 2, leads: true },
    ]),
  )('is one where it led %s', (_, { led, of, leads }) => {
    const sorting = new Sorting();
    sorting.strikeAll(Array.from({ length: of }, (_, i) => kick({ lowAlone: i < led })));
    expect(sorting.led(1)).toBe(leads);
  });

  // a hit that a cymbal led is its own as long as its lows are as loud as ever: here 9.1 dB less in some bands, 3–4.3 dB RMS away
  const LOWS = [0, 1, 2, 3, 4];
  it.each(
    named([
      ...LOWS.map((band) => ({
        name: `band ${band} of A`,
        loudest: band,
        softer: LOWS.filter((b) => b !== band),
        id: 1,
      })),
      { name: 'all of them softer', loudest: 2, softer: LOWS, id: 2 },
      // from 500 Hz on it isn't the low end
      { name: 'band 5 of A, which isn’t low', loudest: 5, softer: LOWS, id: 2 },
      { name: 'band 0 of B', loudest: 8, softer: LOWS, id: 2 },
    ]),
  )('is known by the strongest of the five bands below 500 Hz in A: %s', (_, { loudest, softer, id }) => {
    const sorting = new Sorting();
    const tom = plus([...Array(5).fill(30), 20, 10, 5, ...Array(5).fill(25), 15, 5, 0], one(loudest, 15));
    sorting.strikeAll(times(3, { print: tom, lowUs: 1000 }));
    const less = all(0).map((_v, i) => (softer.includes(i) ? -9.1 : 0));
    expect(sorting.strike({ print: plus(tom, less), highLed: true })).toBe(id);
  });

  it.each(
    named([
      // a cymbal's own low end lies far below the drum's
      { name: 'a cymbal led, 9.1 dB below the drum’s usual low end', hit: soft(-9.1, { highLed: true }), id: 2 },
      { name: 'a cymbal led, 8.9 dB below it', hit: soft(-8.9, { highLed: true }), id: 1 },
      { name: 'no cymbal led, 20 dB below it', hit: soft(-20), id: 1 },
      { name: 'the low end led, with 20 dB more in the top', hit: kick({ print: plus(KICK, top(20)) }), id: 1 },
      {
        name: 'the low end did not lead, with 20 dB more in the top',
        hit: soft(0, { print: plus(KICK, top(20)) }),
        id: 2,
      },
      {
        name: 'the low end led, with 20 dB more in the lower bands of A',
        hit: kick({ print: plus(KICK, twice([20, 20, 0, 0, 0, 0, 0, 0])) }),
        id: 2,
      },
    ]),
  )('has, or hasn’t, a hit that %s', (_, { hit, id }) => {
    const sorting = new Sorting();
    expect(sorting.strikeAll([kick(), kick(), kick()])).toEqual([1, 1, 1]);
    expect(sorting.strike(hit)).toBe(id);
  });

  it('is the one for which the top is left out: others are compared by all of it', () => {
    const sorting = new Sorting();
    sorting.strikeAll([{ print: KICK }, { print: KICK }, { print: KICK }]);
    expect(sorting.strike(kick({ print: plus(KICK, top(20)) }))).toBe(2);
    // nor is a soft one of it, led by a cymbal, another's
    expect(sorting.strike({ print: plus(KICK, all(-20)), highLed: true })).toBe(1);
  });
});

describe('where the middle of a drum’s energy lies in A', () => {
  const ALL_OF_B = [8, 9, 10, 11, 12, 13, 14, 15];
  const only = (...bands: number[]): number[] => all(0).map((_, i) => (bands.includes(i) ? 40 : -200));
  it.each(
    named([
      { name: 'all of it in 40–80 Hz', print: only(0), hz: 57 },
      { name: 'all of it in 2500–10000 Hz', print: only(7), hz: 5000 },
      // between two bands of one level: the geometric mean
      { name: 'half in 500–1000 Hz, half in 1000–2500 Hz', print: only(5, 6), hz: Math.sqrt(707 * 1581) },
      { name: 'whatever B hears', print: only(5, ...ALL_OF_B), hz: 707 },
    ]),
  )('%s', (_, { print, hz }) => {
    const sorting = new Sorting();
    const id = sorting.strike({ print });
    expect(sorting.centreHz(id)).toBeCloseTo(hz, 6);
  });
});

it('forgets all of them, and counts from one again', () => {
  const sorting = new Sorting();
  sorting.strikeAll([{ print: SNARE }, { print: KICK }]);
  sorting.clear();
  expect(sorting.knows(1)).toBe(false);
  expect(sorting.strike({ print: KICK })).toBe(1);
});
