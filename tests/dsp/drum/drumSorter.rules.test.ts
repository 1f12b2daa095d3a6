/**
 * Which drum a hit is of, from made-up fingerprints (dB in four bands of A, then of B). DEVELOPERS, "How an answer comes
 * about", 5. Where half of the bands lie x dB higher against the other half, the distance with the force taken out is x/2.
 */
import { describe, expect, it } from 'vitest';
import { DRUM_LIMITS, Sorting } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import type { MadeHit } from '../../support/rules/rules';

const plus = (print: readonly number[], more: readonly number[]): number[] => print.map((v, i) => v + more[i]);
const all = (dB: number): number[] => Array(8).fill(dB);
const inB = (dB: number): number[] => [0, 0, 0, 0, dB, dB, dB, dB];
const lower = (dB: number): number[] => [dB, dB, 0, 0, dB, dB, 0, 0];
const top = (dB: number): number[] => [0, 0, 0, dB, 0, 0, 0, dB];

const SNARE = [10, 30, 25, 20, 5, 25, 20, 15];
/** its low end begins its hits */
const KICK = [40, 20, 5, 0, 35, 15, 0, -5];
const kick = (more: MadeHit = {}): MadeHit => ({ print: KICK, lowUs: 1000, ...more });
/** a drum of its own for each band */
const kinds = Array.from({ length: 8 }, (_, band) => all(0).map((_v, i) => (i === band ? 40 : 0)));
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
      // of two of eight values 13 dB off: √(2·13²/8 − (2·13/8)²) = 5.63 dB
      { name: 'a cymbal adds 13 dB to the top', print: plus(SNARE, top(13)), one: false },
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

  it('are six: a seventh drum has none while the others are heard', () => {
    expect(new Sorting().strikeAll([...firsts, kind(6), kind(0)])).toEqual([1, 2, 3, 4, 5, 6, 0, 1]);
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
    expect(sorting.strike(kind(6))).toBe(free ? 7 : 0);
    expect(sorting.knows(silent + 1)).toBe(!free);
    expect(sorting.idOf(silent + 1)).toBe(free ? 0 : silent + 1);
    // one hit later it is time for the other, too
    if (free) expect(sorting.hitsOf(7)).toBe(1);
    else expect(sorting.strike(kind(6))).toBe(7);
  });

  it('that are taken over have nothing of the drum before', () => {
    const sorting = new Sorting();
    const led = kind(0);
    sorting.strikeAll(Array(3).fill({ ...led, lowUs: 1000 }));
    expect(sorting.led(1)).toBe(true);
    sorting.strikeAll([...firsts.slice(1), ...until(40, 0)]);
    expect(sorting.strike(kind(6))).toBe(7);
    expect([sorting.led(7), sorting.hitsOf(7)]).toEqual([false, 1]);
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

  it('is known by the louder of the two lowest bands in A', () => {
    const sorting = new Sorting();
    const tom = [30, 40, 20, 10, 25, 35, 15, 5];
    sorting.strikeAll(Array(3).fill({ print: tom, lowUs: 1000 }));
    // 12 dB less in 40–150 Hz: 4 dB RMS away, and as much as ever in 150–500 Hz
    expect(sorting.strike({ print: plus(tom, [-12, 0, 0, 0, 0, 0, 0, 0]), highLed: true })).toBe(1);
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
        hit: kick({ print: plus(KICK, [20, 20, 0, 0, 0, 0, 0, 0]) }),
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

describe('the drum that the reading is about: the loudest in A', () => {
  const snare = (n: number, levelA: number): MadeHit[] => Array(n).fill({ print: SNARE, levelA });
  const tom = (n: number, levelA: number): MadeHit[] => Array(n).fill({ print: kinds[0], levelA });
  it.each(
    named([
      { name: 'of one', hits: snare(1, -30), loudest: 1 },
      { name: 'the louder of two', hits: [...snare(4, -20), ...tom(4, -10)], loudest: 2 },
      { name: 'not one with two hits, where another has four', hits: [...snare(4, -20), ...tom(2, -10)], loudest: 1 },
      { name: 'one with three hits', hits: [...snare(4, -20), ...tom(3, -10)], loudest: 2 },
      { name: 'while none has three: the one with most of them', hits: [...snare(1, -10), ...tom(2, -30)], loudest: 2 },
      // a fifth of the most frequent one's
      { name: 'three hits against fifteen', hits: [...tom(3, -10), ...snare(15, -30)], loudest: 1 },
      { name: 'not three hits against sixteen', hits: [...tom(3, -10), ...snare(16, -30)], loudest: 2 },
      // of the newest 24
      { name: 'four hits against twenty', hits: [...tom(4, -10), ...snare(20, -30)], loudest: 1 },
      {
        name: 'not four against 21: one of them lies too far back',
        hits: [...tom(4, -10), ...snare(21, -30)],
        loudest: 2,
      },
      {
        name: 'not the first of 25: three against twenty are left',
        hits: [...tom(4, -10), { print: kinds[5], levelA: -30 }, ...snare(20, -30)],
        loudest: 3,
      },
      { name: 'by their mean, however many hits they have', hits: [...snare(8, -20), ...tom(4, -18)], loudest: 2 },
      { name: 'another louder by 0.9 dB does not take over', hits: [...snare(4, -20), ...tom(4, -19.1)], loudest: 1 },
      { name: 'another louder by 1.1 dB takes over', hits: [...snare(4, -20), ...tom(4, -18.9)], loudest: 2 },
      { name: 'of none, without a drum', hits: [{ clipped: 1 }], loudest: 0 },
    ]),
  )('%s', (_, { hits, loudest }) => {
    const sorting = new Sorting();
    sorting.strikeAll(hits);
    expect(sorting.loudest).toBe(loudest);
  });
});

describe('where the middle of a drum’s energy lies in A', () => {
  it.each(
    named([
      { name: 'all of it in 40–150 Hz', print: [40, -200, -200, -200], hz: 77 },
      { name: 'all of it in 2–10 kHz', print: [-200, -200, -200, 40], hz: 4472 },
      // between two bands of one level: the geometric mean
      { name: 'half in 150–500 Hz, half in 500–2000 Hz', print: [-200, 20, 20, -200], hz: Math.sqrt(274 * 1000) },
      { name: 'whatever B hears', print: [-200, -200, 0, -200, 99, 99, 99, 99], hz: 1000 },
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
  expect([sorting.knows(1), sorting.loudest]).toEqual([false, 0]);
  expect(sorting.strike({ print: KICK })).toBe(1);
});
