/**
 * Which of several drums the reading is about: the one that a microphone stands at, by its level above 1 kHz and by who hears it first,
 * of all hits; else the one that a person chooses. DEVELOPERS, "How an answer comes about", 5.
 */
import { describe, expect, it } from 'vitest';
import { DRUM_LIMITS, DrumsFeed } from '../support/rules/drumRules';
import { named } from '../support/rules/named';
import { type MadeHit, times } from '../support/rules/rules';

/** One of up to six drums, its levels above 1 kHz in A and in B, dB, and by how much A hears it first, µs. */
const drum = (k: number, inA: number, inB: number, delayUs = 1000): MadeHit => ({
  print: [...row(k), inA, inA, ...row(k), inB, inB],
  delayUs,
});
const row = (k: number): number[] => Array.from({ length: 6 }, (_, i) => (i === k ? 60 : 20));
const four = (...of: Parameters<typeof drum>): MadeHit[] => times(4, drum(...of));

describe('while there is nothing to choose from', () => {
  it.each(
    named([
      { name: 'one drum, whoever hears it first', hits: four(0, 0, 30, -1000), shown: [1, 1, 1, 1] },
      {
        name: 'the one with most hits',
        hits: [drum(0, 20, 0), drum(1, 0, 0), drum(1, 0, 0)],
        shown: [1, 1, 2],
      },
      { name: 'of as many hits each the first', hits: [drum(0, 0, 0), drum(1, 30, 0)], shown: [1, 1] },
      {
        name: 'one with more, and then the first of those with as many',
        hits: [drum(0, 0, 0), drum(1, 10, 0), drum(2, 20, 0), drum(1, 10, 0), drum(2, 20, 0), drum(0, 0, 0)],
        shown: [1, 1, 1, 2, 2, 2],
      },
      {
        name: 'the first, until another has three that are clearly louder in A, which hears them first',
        hits: [...four(0, 0, 0), ...four(1, 5.1, 0)],
        shown: [1, 1, 1, 1, 1, 1, 2, 2],
      },
      {
        name: 'the first with four, while the other is 4.9 dB louder',
        hits: [...four(0, 0, 0), ...times(3, drum(1, 4.9, 0))],
        shown: [1, 1, 1, 1, 1, 1, 1],
      },
      {
        name: 'the first with four, while both hear the louder one at once',
        hits: [...four(0, 0, 0), ...times(3, drum(1, 30, 0, 299))],
        shown: [1, 1, 1, 1, 1, 1, 1],
      },
      { name: 'none, where no hit can be used', hits: [{ clipped: 1 }], shown: [0] },
    ]),
  )('%s', (_, { hits, shown }) => {
    const drums = new DrumsFeed();
    expect(hits.map((hit) => drums.hear(hit).shown)).toEqual(shown);
    expect(drums.open).toBe(false);
  });
});

describe('of two with four hits each', () => {
  it.each(
    named<{ name: string; one: [number, number, number]; other: [number, number, number]; shown: number }>([
      { name: '5.1 dB louder in A, which hears it first', one: [20, 0, 301], other: [14.9, 0, 1000], shown: 1 },
      { name: '4.9 dB louder in A', one: [20, 0, 301], other: [15.1, 0, 1000], shown: 0 },
      { name: '20 dB louder in A, but both hear it at once', one: [40, 0, 299], other: [20, 0, 1000], shown: 0 },
      { name: '20 dB louder in A, but B hears it first', one: [40, 0, -1000], other: [20, 0, 1000], shown: 0 },
      {
        name: '20 dB louder in A, but no first push is seen',
        one: [40, 0, Number.NaN],
        other: [20, 0, 1000],
        shown: 0,
      },
      { name: '10.1 dB louder in B, which hears it first', one: [20, 30.1, -301], other: [20, 20, 1000], shown: 1 },
      { name: '9.9 dB louder in B', one: [20, 29.9, -301], other: [20, 20, 1000], shown: 0 },
      { name: '20 dB louder in B, but both hear it at once', one: [20, 40, -299], other: [20, 20, 1000], shown: 0 },
      { name: '20 dB louder in B, but A hears it first', one: [20, 40, 1000], other: [20, 20, 1000], shown: 0 },
      { name: 'A at the one, B at the other: the one', one: [30, 0, 1000], other: [0, 30, -1000], shown: 1 },
      { name: 'B at the one, A at the other: the other', one: [0, 30, -1000], other: [30, 0, 1000], shown: 2 },
      { name: 'two overheads: alike in both', one: [20, 20, 800], other: [20.5, 19.5, -800], shown: 0 },
    ]),
  )('%s', (_, { one, other, shown }) => {
    // whichever comes first
    const forth = new DrumsFeed().hear(...four(0, ...one), ...four(1, ...other));
    const back = new DrumsFeed().hear(...four(1, ...other), ...four(0, ...one));
    expect([forth.shown, back.shown]).toEqual([shown, shown === 0 ? 0 : 3 - shown]);
    expect([forth.open, back.open]).toEqual([shown === 0, shown === 0]);
    // of none there are no hits that could be told
    if (shown === 0) expect(forth.shownHits).toBe(0);
  });
});

describe('the drum that A stands at', () => {
  const snare = drum(0, 30, 0);
  const tom = drum(1, 0, 0, 500);

  it('stays, with its hits and its answer, while another one is hit 40 times, and 300 times', () => {
    const drums = new DrumsFeed().hear(...times(12, snare));
    const own = { delayUs: 1000, sign: 1, moved: false, hits: 12 };
    for (let n = 0; n < 40; n++) {
      expect([drums.hear(tom).shown, drums.open, drums.shownHits]).toEqual([1, false, 12]);
      expect(drums.drum(1)).toEqual(own);
    }
    expect(drums.fates.slice(0, 12)).toEqual(Array(12).fill('used'));
    drums.hear(...times(260, tom));
    expect([drums.shown, drums.drum(1)]).toEqual([1, own]);
    expect(drums.drum(2)).toEqual({ delayUs: 500, sign: 1, moved: false, hits: 16 });
    // and goes on from there
    expect(drums.hear(snare).drum(1).hits).toBe(13);
  });

  it('is found with its third hit, however often others were hit before', () => {
    const drums = new DrumsFeed().hear(...times(40, tom));
    expect(times(4, snare).map((hit) => drums.hear(hit).shown)).toEqual([1, 1, 2, 2]);
    expect(drums.shownHits).toBe(4);
  });

  it('stays while no other is within 3 dB, though it wouldn’t be found so', () => {
    const near = drum(2, 26.9, 0);
    expect(new DrumsFeed().hear(...times(4, snare), ...times(4, near)).open).toBe(true);
    const drums = new DrumsFeed().hear(...times(4, snare), ...times(4, tom));
    expect([drums.shown, drums.hear(...times(12, near)).shown]).toEqual([1, 1]);
  });

  it('is open once another is within 3 dB: two overheads hear one drum after the other as loud', () => {
    const drums = new DrumsFeed().hear(...times(4, snare), ...times(4, tom));
    expect([drums.hear(...times(4, drum(2, 27.1, 0))).shown, drums.open]).toEqual([0, true]);
  });

  it.each([
    { name: 'is open where one that comes later is 4.9 dB louder', more: 4.9, shown: 0 },
    { name: 'is the one that comes later where that is 5.1 dB louder', more: 5.1, shown: 3 },
  ])('$name', ({ more, shown }) => {
    const drums = new DrumsFeed().hear(...times(4, snare), ...times(4, tom), ...four(2, 30 + more, 0));
    expect([drums.shown, drums.open]).toEqual([shown, shown === 0]);
  });

  it('isn’t told by a drum with two hits, however loud', () => {
    const drums = new DrumsFeed().hear(...times(4, snare), ...times(4, tom), ...times(2, drum(2, 60, 0)));
    expect(drums.shown).toBe(1);
  });

  it('isn’t told by one accident: its level is that of its two loudest hits', () => {
    const accident = drum(1, 35.1, 0, 500);
    // by the mean of 35.1 and 18.8 dB 3.05 dB below the snare's 30; by two of them 5.1 dB above it
    const toms = times(4, drum(1, 18.8, 0, 500));
    expect(new DrumsFeed().hear(...times(4, snare), ...toms, accident).shown).toBe(1);
    expect(new DrumsFeed().hear(...times(4, snare), ...toms, accident, accident).shown).toBe(2);
  });
});

describe('the drum that a person chooses', () => {
  const near = (n: number): MadeHit[] => times(n, drum(0, 30, 0));
  const far = (n: number): MadeHit[] => times(n, drum(1, 0, 0, 500));
  const both = (): DrumsFeed => new DrumsFeed().hear(...near(5), ...far(4));
  const alike = (): DrumsFeed => new DrumsFeed().hear(...four(0, 20, 20, 800), ...four(1, 20, 20, -800));

  it('is shown as long as it is heard, and the meter’s own again when none is chosen', () => {
    const drums = both();
    expect(drums.fates).toEqual(Array(9).fill('used'));
    expect([drums.shown, drums.chosen, drums.shownHits]).toEqual([1, false, 5]);
    expect([drums.choose(2).shown, drums.chosen, drums.shownHits]).toEqual([2, true, 4]);
    expect([drums.hear(...near(40)).shown, drums.shownHits]).toEqual([2, 4]);
    expect([drums.choose(0).shown, drums.chosen]).toEqual([1, false]);
  });

  it('ends that it is open which one is meant, until none is chosen', () => {
    const drums = alike();
    expect([drums.shown, drums.open, drums.shownHits]).toEqual([0, true, 0]);
    expect([drums.drum(1).delayUs, drums.drum(2).delayUs]).toEqual([800, -800]);
    expect([drums.choose(2).shown, drums.open, drums.shownHits]).toEqual([2, false, 4]);
    expect([drums.hear(...times(4, drum(0, 20, 20, 800))).shown, drums.open]).toEqual([2, false]);
    expect([drums.choose(1).shown, drums.open, drums.shownHits]).toEqual([1, false, 8]);
    expect([drums.choose(0).shown, drums.open, drums.chosen]).toEqual([0, true, false]);
  });

  it('is the meter’s own where the chosen one isn’t known, or is gone', () => {
    const drums = both();
    expect([drums.choose(9).shown, drums.chosen]).toEqual([1, false]);
    drums.choose(2);
    // eight others fill the places, and an eleventh drum comes when the chosen one hasn’t been heard for long
    const others = Array.from({ length: DRUM_LIMITS.slots - 2 }, (_, k) => ({
      print: Array.from({ length: 16 }, (_v, i) => (i === k + 8 ? 60 : 0)),
    }));
    const goOn = Array.from({ length: 40 }, (_, i) => others[i % others.length] as MadeHit);
    drums.hear(...others, ...goOn, ...near(1), ...far(0));
    expect([drums.knows(2), drums.shown, drums.chosen]).toEqual([true, 2, true]);
    drums.hear(drum(2, 0, 0));
    expect([drums.knows(2), drums.shown, drums.chosen]).toEqual([false, 1, false]);
  });
});

describe('none is shown', () => {
  it('before the first hit', () => {
    expect([new DrumsFeed().shown, new DrumsFeed().shownHits, new DrumsFeed().open]).toEqual([0, 0, false]);
  });

  it('after the start anew, and nothing is left of what was shown', () => {
    const snare = drum(0, 20, 0);
    const drums = new DrumsFeed().hear(...times(4, snare), ...four(1, 0, 0, 500)).choose(2);
    drums.hear(
      ...[1, 2].map((clipped) => ({ ...snare, clipped })),
      { ...snare, oneSided: 1 },
      { ...snare, oneSided: -1 },
    );
    drums.clear();
    expect([drums.shown, drums.chosen, drums.open, drums.shownHits]).toEqual([0, false, false, 0]);
    expect(drums.roll).toEqual({ length: 0, clippedA: 0, clippedB: 0, onlyA: 0, onlyB: 0 });
    // nor of a microphone that stood at the first drum
    expect(drums.hear(...times(4, snare), ...four(1, 19, 0)).open).toBe(true);
    drums.clear();
    expect([drums.shown, drums.open]).toEqual([0, false]);
  });
});
