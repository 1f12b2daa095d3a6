/** What most of a handful say: those within 0.08 ms of one of them and of its sign, by weight. */
import { describe, expect, it } from 'vitest';
import { named } from '../../support/rules/named';
import { LIMITS, usOf } from '../../support/rules/rules';
import { modeOf } from '../../support/rules/seriesRules';

interface Row {
  name: string;
  hits: { us: number; weight?: number; sign?: number }[];
  members: number;
  /** null: no answer */
  delayUs: number | null;
  sign: number;
  share: number;
  spreadUs: number | null;
}

const at = (...us: number[]): { us: number }[] => us.map((x) => ({ us: x }));
const light = (...us: number[]): { us: number; weight: number }[] => us.map((x) => ({ us: x, weight: 0.25 }));
const turned = (...us: number[]): { us: number; sign: number }[] => us.map((x) => ({ us: x, sign: -1 }));

const NOTHING = { members: 0, delayUs: null, sign: 0, share: 0, spreadUs: null };
const says = (members: number, delayUs: number, sign: number, share: number, spreadUs: number) => ({
  members,
  delayUs,
  sign,
  share,
  spreadUs,
});

const rows: Row[] = [
  { name: 'no hit', hits: [], ...NOTHING },
  {
    name: 'hits of no weight',
    hits: [
      { us: 10, weight: 0 },
      { us: 10, weight: 0 },
    ],
    ...NOTHING,
  },
  { name: 'one hit', hits: turned(-300), ...says(1, -300, -1, 1, 0) },
  {
    name: 'two 0.079 ms apart say the same',
    hits: at(0, 79),
    ...says(2, 39.5, 1, 1, 39.5),
  },
  { name: 'two 0.081 ms apart do not', hits: at(0, 81), ...says(1, 0, 1, 0.5, 0) },
  {
    name: 'what lies within 0.08 ms of the one in the middle counts, though the ends are farther apart',
    hits: at(0, 60, 120),
    ...says(3, 60, 1, 1, 60),
  },
  {
    name: 'one delay with two signs is two answers',
    hits: [...at(5, 5), ...turned(5, 5, 5)],
    ...says(3, 5, -1, 0.6, 0),
  },
  {
    name: 'two of full weight against three of a quarter',
    hits: [...light(500, 500, 500), ...at(0, 10)],
    ...says(2, 5, 1, 2 / 2.75, 5),
  },
  {
    name: 'a light one in the neighbourhood counts as a member, and little in the share',
    hits: [...light(10), ...at(10, 20, 900)],
    ...says(3, 10, 1, 2.25 / 3.25, 0),
  },
  {
    name: 'the median of an odd number is the middle one, however far the outer one lies',
    hits: at(0, 1, 79),
    ...says(3, 1, 1, 1, 1),
  },
  {
    // of the newest seven 40, of all nine 30
    name: 'eight that climb, and one before them',
    hits: at(0, 0, 10, 20, 30, 40, 50, 60, 70),
    ...says(9, 35, 1, 1, 25),
  },
  {
    name: 'the newest eight say the delay, all sixteen how closely they repeat',
    hits: [...at(...Array(8).fill(0)), ...at(...Array(8).fill(40))],
    ...says(16, 40, 1, 1, 20),
  },
];

describe('what most hits say', () => {
  it.each(named(rows))('%s', (_, { hits, members, delayUs, sign, share, spreadUs }) => {
    const w = modeOf(hits);
    expect(w.members).toBe(members);
    expect(w.candidates).toBe(hits.filter((h) => h.weight !== 0).length);
    expect(w.sign).toBe(sign);
    expect(w.share).toBeCloseTo(share, 12);
    if (delayUs === null) expect(w.delay).toBeNaN();
    else expect(usOf(w.delay)).toBeCloseTo(delayUs, 9);
    if (spreadUs === null) expect(w.spread).toBeNaN();
    else expect(usOf(w.spread)).toBeCloseTo(spreadUs, 9);
    // whether that is enough is for others to say
    expect(w.sure).toBe(false);
  });

  it('says nothing any more when nothing is left', () => {
    const w = modeOf(at(5, 6, 7));
    w.sure = true;
    expect(modeOf([{ us: 5, weight: 0 }], w)).toMatchObject({
      members: 0,
      candidates: 0,
      share: 0,
      sign: 0,
      sure: false,
    });
    expect([w.delay, w.spread]).toEqual([Number.NaN, Number.NaN]);
  });

  it('has room for a pool of sixteen', () => expect(LIMITS.poolHits).toBe(16));
});
