/** Hits that sound alike: from one drum, or from two that take turns. DEVELOPERS, "How an answer comes about", 5. */
import { describe, expect, it } from 'vitest';
import { betweenUs, DRUM_LIMITS, Sorting } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import { type MadeHit, times, twice } from '../../support/rules/rules';

const KICK = twice([40, 20, 5, 0, 35, 15, 0, -5]);
const SNARE: MadeHit = { print: twice([10, 30, 25, 20, 5, 25, 20, 15]) };
const low = (lowUs: number, more: MadeHit = {}): MadeHit => ({ print: KICK, lowUs, ...more });
const lows = (...us: number[]): MadeHit[] => us.map((v) => low(v));
/** one letter a hit: the near drum at 0, the far one at 0.5 ms */
const turns = (letters: string, far = 500): MadeHit[] => lows(...[...letters].map((c) => (c === 'f' ? far : 0)));

describe('the low ends of hits arrive with two delays by turns', () => {
  it.each(
    named([
      { name: 'by turns', hits: turns('nfnfnf'), between: 250 },
      { name: 'by turns, the far one first', hits: turns('fnfnfn', -500), between: -250 },
      { name: 'only just far enough apart', hits: turns('nfnfnf', DRUM_LIMITS.apartUs + 1), between: 200.5 },
      { name: 'not far enough apart', hits: turns('nfnfnf', DRUM_LIMITS.apartUs - 1), between: null },
      { name: 'two of one of them', hits: turns('nfnfnn'), between: null },
      { name: 'five hits', hits: turns('nfnfn'), between: null },
      // one microphone that was moved
      { name: 'one after the other', hits: turns('nnnfff'), between: null },
      { name: 'forth, back and forth: three changes', hits: turns('nnffnnff'), between: null },
      { name: 'once more: four changes', hits: turns('nnffnnffn'), between: 250 },
      // half of what lies between two drums
      { name: 'the near one’s hits within 0.199 ms', hits: lows(0, 700, 100, 700, 199, 700), between: 449.5 },
      { name: 'the near one’s hits within 0.201 ms', hits: lows(0, 700, 100, 700, 201, 700), between: null },
      { name: 'the far one’s hits within 0.201 ms', hits: lows(0, 700, 0, 800, 0, 901), between: null },
      { name: 'three delays', hits: lows(0, 500, 1000, 0, 500, 1000, 0, 500, 1000), between: null },
      {
        name: 'what is not of the drum doesn’t count',
        hits: turns('nfnfnf').map((h, i) => (i === 5 ? { ...h, drum: 1 } : h)),
        between: null,
      },
      {
        name: 'what did not begin alone doesn’t count',
        hits: turns('nfnfnf').map((h, i) => (i === 5 ? { ...h, lowAlone: false } : h)),
        between: null,
      },
      {
        name: 'what isn’t worked out yet doesn’t count',
        hits: turns('nfnfnf').map((h, i) => (i === 5 ? { ...h, hasArrival: false } : h)),
        between: null,
      },
      // of the newest sixteen hits, thirteen and three
      { name: 'three of the newest sixteen', hits: [...turns('fnfnfn'), ...times(10, low(0))], between: 250 },
      { name: 'two of the newest sixteen', hits: [...turns('fnfnfn'), ...times(11, low(0))], between: null },
    ]),
  )('%s', (_, { hits, between }) => {
    if (between === null) expect(betweenUs(hits)).toBeNaN();
    else expect(betweenUs(hits)).toBeCloseTo(between, 6);
  });
});

describe('two drums that sound alike', () => {
  const parted = (): Sorting => {
    const sorting = new Sorting();
    // the sixth hit shows it: until then they were one
    expect(sorting.strikeAll(turns('nfnfn'))).toEqual([1, 1, 1, 1, 1]);
    expect(sorting.strike(low(500))).toBe(2);
    return sorting;
  };

  it('are parted once both have shown, with the hits that they had', () => {
    const sorting = parted();
    expect([1, 2, 3, 4, 5, 6].map((serial) => sorting.idOf(serial))).toEqual([1, 2, 1, 2, 1, 2]);
    expect([sorting.hitsOf(1), sorting.hitsOf(2)]).toEqual([3, 3]);
    expect([sorting.led(1), sorting.led(2)]).toEqual([true, true]);
  });

  it('leave out a hit of which nobody knows whose it was', () => {
    const sorting = new Sorting();
    sorting.strikeAll([...turns('nfn'), low(500, { lowAlone: false }), ...turns('fnf')]);
    expect([1, 2, 3, 4, 5, 6, 7].map((serial) => sorting.idOf(serial))).toEqual([1, 2, 1, 0, 2, 1, 2]);
  });

  it('are not looked for where the low end seldom leads', () => {
    const hits = (of: number): MadeHit[] =>
      turns('nfnfnf').flatMap((hit) => [hit, ...times(of - 1, low(0, { lowAlone: false }))]);
    // six of 36 hits are a sixth, six of 30 a fifth
    expect(new Sorting().strikeAll(hits(6))).toEqual(Array(36).fill(1));
    expect(new Set(new Sorting().strikeAll(hits(5)))).toContain(2);
  });

  it('leave the hits of other drums alone', () => {
    const sorting = new Sorting();
    sorting.strikeAll([SNARE, ...turns('nfn'), SNARE, ...turns('fnf')]);
    expect([1, 5, 2, 8].map((serial) => sorting.idOf(serial))).toEqual([1, 1, 2, 3]);
  });

  it('stay one where all places are taken', () => {
    const sorting = new Sorting();
    const others = Array.from({ length: DRUM_LIMITS.slots - 1 }, (_, band) => ({
      print: KICK.map((v, i) => v + (i === band + 2 ? 60 : 0)),
    }));
    expect(sorting.strikeAll(others)).toEqual([1, 2, 3, 4, 5, 6, 7, 8, 9]);
    expect(sorting.strikeAll(turns('nfnfnfnf'))).toEqual(Array(8).fill(10));
  });

  it.each(
    named([
      { name: 'at the near one’s delay', hit: low(0), id: 1 },
      { name: 'at the far one’s delay', hit: low(500), id: 2 },
      { name: '0.199 ms off the near one', hit: low(199), id: 1 },
      { name: '0.201 ms off either', hit: low(-201), id: 0 },
      { name: 'between the two', hit: low(250), id: 0 },
      { name: 'whose low end can’t be told', hit: low(0, { lowAlone: false }), id: 0 },
    ]),
  )('whose hit is it: one %s', (_, { hit, id }) => {
    const sorting = parted();
    expect(sorting.strike(hit)).toBe(id);
    // nobody’s hits end nothing by themselves
    expect([sorting.knows(1), sorting.knows(2)]).toEqual([true, true]);
  });

  it('are followed as they creep', () => {
    const sorting = parted();
    expect(sorting.strikeAll(lows(-150, -300, -450))).toEqual([1, 1, 1]);
  });

  it('another drum is no stray, and has its own place', () => {
    const sorting = parted();
    expect(sorting.strikeAll([SNARE, SNARE, SNARE, low(0)])).toEqual([3, 3, 3, 1]);
    // nor does it come between hits of neither, and it stays when they end
    expect(sorting.strikeAll([low(900), SNARE, low(900), SNARE])).toEqual([0, 3, 0, 3]);
    expect(sorting.strikeAll([low(900), SNARE])).toEqual([4, 3]);
  });

  it('end with three hits of neither, one after the other: a microphone was moved', () => {
    const sorting = parted();
    expect(sorting.strikeAll(lows(900, 1400))).toEqual([0, 0]);
    expect(sorting.strike(low(900))).toBe(3);
    expect([sorting.knows(1), sorting.knows(2)]).toEqual([false, false]);
    // from now on it is one drum again, until both have shown
    expect(sorting.strikeAll(lows(1400, 900, 1400, 900))).toEqual([3, 3, 3, 3]);
    expect(sorting.strike(low(1400))).toBe(4);
  });

  it.each(
    named([
      { name: 'one of theirs between them', hits: lows(900, 900, 500, 900, 900), ids: [0, 0, 2, 0, 0] },
      {
        name: 'hits whose low end can’t be told don’t count',
        hits: times(4, low(900, { lowAlone: false })),
        ids: [0, 0, 0, 0],
      },
    ]),
  )('go on with %s', (_, { hits, ids }) => {
    const sorting = parted();
    expect(sorting.strikeAll(hits)).toEqual(ids);
    expect([sorting.knows(1), sorting.knows(2)]).toEqual([true, true]);
  });
});
