/** Which alternative is recommended: every sentence of the rule at its limits, and what holds for any list. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Action,
  type Alternative,
  AS_GOOD_DB,
  alternativesOf,
  gainDb,
  isSame,
  LEAST_GAIN_DB,
  recommendedOf,
  STANDS_DB,
  type SumLevels,
  type Timing,
  turned,
} from '../../../src/advice/plan/alternatives';

type Bands = [number | null, number | null, number | null, number | null];
const EVEN: Bands = [0, 0, 0, 0];

/** "leave", "invert", "move", "invert and delay" …; what it gains in the low octave and over all, dB. */
type Row = [what: string, lowDb: number | null, allDb: number | null, bandsDb?: Bands, ms?: number];

function alternative([what, lowDb, allDb, bandsDb = EVEN, ms = 2]: Row): Alternative {
  const delayMs = what.includes('delay') ? ms : null;
  return { invertB: what.includes('invert'), delayMs, moveCm: what.includes('move') ? 5 : null, lowDb, allDb, bandsDb };
}
const LEAVE: Row = ['leave', 0, 0];
const list = (...rows: Row[]): Alternative[] => [LEAVE, ...rows].map(alternative);
const NONE: Action = { invertB: false, delayMs: null, moveCm: null };

function named({ invertB, delayMs, moveCm }: Action): string {
  const parts = [
    ...(invertB ? ['invert'] : []),
    ...(moveCm === null ? [] : ['move']),
    ...(delayMs === null ? [] : ['delay']),
  ];
  return parts.join(' and ') || 'leave';
}

describe('the rule, at its limits', () => {
  it.each<[string, Row[], string]>([
    // 1. what isn't known, or is a loss, is out; the present is in
    ['a low octave that is not known', [['invert', null, 9]], 'leave'],
    ['a whole that is not known', [['invert', 9, null]], 'leave'],
    [
      'neither known',
      [
        ['invert', null, null],
        ['delay', null, null],
        ['move', null, null],
      ],
      'leave',
    ],
    ['nothing but the present', [], 'leave'],
    ['a loss in one', [['invert', 9, -0.31]], 'leave'],
    ['a move that is as good, and clearer', [['move', -0.3, -0.3, [0, 0, 0, 2]]], 'move'],
    ['a move that loses a little more', [['move', 0, -0.31, [0, 0, 0, 2]]], 'leave'],
    // 2. worth doing from 0.5 dB in both; a switch first, a move or a delay for 0.5 dB more
    ['an invert at the limit', [['invert', 0.5, 0.5]], 'invert'],
    ['an invert above it', [['invert', 0.51, 8]], 'invert'],
    ['an invert below it in the low octave', [['invert', 0.49, 8]], 'leave'],
    ['an invert below it over all', [['invert', 8, 0.49]], 'leave'],
    ['a delay at the limit', [['delay', 0.5, 0.5]], 'delay'],
    ['a delay below it', [['delay', 0.49, 0.5]], 'leave'],
    [
      'a delay that gains as much more than the invert',
      [
        ['invert', 1, 2],
        ['delay', 1.5, 3],
      ],
      'delay',
    ],
    [
      'a delay that gains less more than the invert',
      [
        ['invert', 1, 2],
        ['delay', 1.49, 3],
      ],
      'invert',
    ],
    [
      'a move that gains as much more',
      [
        ['invert', 1, 1],
        ['invert and move', 1.5, 1.5],
      ],
      'invert and move',
    ],
    [
      'a move that gains less more',
      [
        ['invert', 1, 1],
        ['invert and move', 1.49, 1.5],
      ],
      'invert',
    ],
    [
      'a delay beside an invert that is worth nothing',
      [
        ['invert', 0.49, 0.49],
        ['delay', 0.5, 0.5],
      ],
      'delay',
    ],
    // 3. a move for the upper bands
    ['clearer at the limit', [['move', 0, 0, [0, 0, 1, 0]]], 'move'],
    ['clearer below it', [['move', 0, 0, [0, 0, 0.99, 0.99]]], 'leave'],
    ['clearer above 3 kHz', [['move', 0, 0, [0, 0, 0, 1.01]]], 'move'],
    ['clearer in the low bands only', [['move', 0, 0, [3, 3, 0, 0]]], 'leave'],
    ['as much lost in another band', [['move', 0, 0, [0, -1, 0, 3]]], 'leave'],
    ['almost as much lost', [['move', 0, 0, [0, -0.99, 0, 3]]], 'move'],
    ['bands that are not known count for nothing', [['move', 0, 0, [null, null, null, 1]]], 'move'],
    ['a delay does nothing for the upper bands', [['delay', 0, 0, [0, 0, 0, 6]]], 'leave'],
    [
      'clearer than the invert',
      [
        ['invert', 2, 2, [0, 0, 0, 3]],
        ['invert and move', 1.7, 1.7, [0, 0, 0, 4]],
      ],
      'invert and move',
    ],
    [
      'not clearer than the invert',
      [
        ['invert', 2, 2, [0, 0, 0, 3.5]],
        ['invert and move', 2, 2, [0, 0, 0, 4]],
      ],
      'invert',
    ],
    [
      'clearer than the invert, and less full',
      [
        ['invert', 2, 2],
        ['invert and move', 1.69, 2, [0, 0, 0, 4]],
      ],
      'invert',
    ],
    // 4. of those as good as the best a move, then the earlier
    [
      'a move that is as good as the delay',
      [
        ['delay', 3, 3],
        ['move', 2.7, 3],
      ],
      'move',
    ],
    [
      'a move that is not',
      [
        ['delay', 3, 3],
        ['move', 2.69, 3],
      ],
      'delay',
    ],
    [
      'the inverted delay where it is the best',
      [
        ['delay', 2, 2],
        ['invert and delay', 4, 4],
      ],
      'invert and delay',
    ],
  ])('%s: %s', (_, rows, what) => {
    expect(named(recommendedOf(list(...rows)))).toBe(what);
  });

  it.each([
    [2.7, 1],
    [2.69, 2],
  ])('of two delays as good as each other the earlier: %d dB against 3 dB', (db, ms) => {
    const made = recommendedOf(list(['delay', db, db, EVEN, 1], ['delay', 3, 3, EVEN, 2]));
    expect(made.delayMs).toBe(ms);
  });

  it.each<[string, Row[], string, string]>([
    // 5. what stood stays while nothing gains 0.5 dB more
    [
      'the best is as much better',
      [
        ['invert', 1, 1],
        ['delay', 1.5, 1.5],
      ],
      'invert',
      'invert',
    ],
    [
      'the best is more than that better',
      [
        ['invert', 1, 1],
        ['delay', 1.51, 1.51],
      ],
      'invert',
      'delay',
    ],
    [
      'a delay that no longer gains more than the invert',
      [
        ['invert', 1, 1],
        ['delay', 1, 1],
      ],
      'delay',
      'delay',
    ],
    ['leave, and an invert of 0.5 dB', [['invert', 0.5, 0.5]], 'leave', 'leave'],
    ['leave, and an invert of more', [['invert', 0.51, 0.51]], 'leave', 'invert'],
    ['an invert that became as good as none', [['invert', -0.3, 0]], 'invert', 'invert'],
    ['an invert that became a loss', [['invert', -0.31, 0]], 'invert', 'leave'],
    ['what is no longer known', [['invert', null, 3]], 'invert', 'leave'],
    ['what is no longer there', [['invert', 2, 2]], 'move', 'invert'],
  ])('%s: %s stood', (_, rows, stood, what) => {
    const { invertB, delayMs, moveCm } = alternative([stood, 0, 0]);
    expect(named(recommendedOf(list(...rows), { invertB, delayMs, moveCm }))).toBe(what);
  });
});

const levels = (lowDb: number | null, allDb: number | null, bandsDb: (number | null)[] = EVEN): SumLevels => ({
  lowDb,
  allDb,
  bandsDb,
});

describe('the list', () => {
  const timings: Timing[] = [
    { delayMs: null, moveCm: null, asIs: levels(-3, 1, [1, 2, 3, 4]), inverted: levels(2, -1, [2, 2, null, 0]) },
    { delayMs: 2.3, moveCm: null, asIs: levels(3, 2), inverted: levels(null, -9) },
  ];

  it('has every timing with either polarity, and gains over the present', () => {
    expect(alternativesOf(timings)).toEqual([
      { ...NONE, lowDb: 0, allDb: 0, bandsDb: [0, 0, 0, 0] },
      { ...NONE, invertB: true, lowDb: 5, allDb: -2, bandsDb: [1, 0, null, -4] },
      { ...NONE, delayMs: 2.3, lowDb: 6, allDb: 1, bandsDb: [-1, -2, -3, -4] },
      { invertB: true, delayMs: 2.3, moveCm: null, lowDb: null, allDb: -10, bandsDb: [-1, -2, -3, -4] },
    ]);
    expect(alternativesOf([])).toEqual([]);
  });

  it('the present gains 0 even where nothing is known, and all else nothing that is known', () => {
    const nothing = levels(null, null, [null, null, null, null]);
    const made = alternativesOf([
      { ...NONE, asIs: nothing, inverted: levels(1, 1) },
      { delayMs: 1, moveCm: null, asIs: levels(2, 2), inverted: nothing },
    ]);
    expect(made[0]).toEqual({ ...NONE, lowDb: 0, allDb: 0, bandsDb: [0, 0, 0, 0] });
    for (const one of made.slice(1)) expect([one.lowDb, one.allDb, ...one.bandsDb]).toEqual(Array(6).fill(null));
  });

  it('is told from the other switch once that is pressed', () => {
    const [first, second] = turned(timings) as [Timing, Timing];
    expect([first.asIs, first.inverted]).toEqual([timings[0]?.inverted, timings[0]?.asIs]);
    expect([second.delayMs, second.asIs]).toEqual([2.3, timings[1]?.inverted]);
    expect(timings[0]?.asIs.lowDb).toBe(-3);
    expect(alternativesOf(turned(timings))[1]).toMatchObject({ invertB: true, lowDb: -5, allDb: 2 });
  });
});

const db = fc.option(fc.double({ min: -20, max: 3.01, noNaN: true }), { freq: 8 });
const known = fc.double({ min: -20, max: 3.01, noNaN: true });
const sumLevels = (level: fc.Arbitrary<number | null>): fc.Arbitrary<SumLevels> =>
  fc.record({ lowDb: level, allDb: level, bandsDb: fc.tuple(level, level, level, level) });
/** the present, perhaps a move, delays; none twice */
const timingsWith = (level: fc.Arbitrary<number | null>): fc.Arbitrary<Timing[]> => {
  const one = fc.record({ asIs: sumLevels(level), inverted: sumLevels(level) });
  return fc
    .tuple(one, fc.option(one), fc.array(one, { maxLength: 3 }))
    .map(([present, move, delays]) => [
      { delayMs: null, moveCm: null, ...present },
      ...(move === null ? [] : [{ delayMs: null, moveCm: 7, ...move }]),
      ...delays.map((each, i) => ({ delayMs: i + 1, moveCm: null, ...each })),
    ]);
};
const someTimings = timingsWith(db);

describe('whatever the levels', () => {
  it('the recommended one is one of the list, known, and no worse than the present', () => {
    fc.assert(
      fc.property(someTimings, fc.nat({ max: 9 }), (timings, i) => {
        const all = alternativesOf(timings);
        for (const standing of [null, all[i] ?? null]) {
          const made = recommendedOf(all, standing);
          expect(all).toContain(made);
          expect(made.lowDb as number).toBeGreaterThanOrEqual(-AS_GOOD_DB);
          expect(made.allDb as number).toBeGreaterThanOrEqual(-AS_GOOD_DB);
        }
      }),
      { numRuns: 2000 },
    );
  });

  it('what is done gains 0.5 dB in both, or is a move for the upper bands', () => {
    fc.assert(
      fc.property(someTimings, (timings) => {
        const made = recommendedOf(alternativesOf(timings));
        if (isSame(made, NONE)) return;
        const clears = made.moveCm !== null && made.bandsDb.slice(2).some((x) => (x ?? 0) !== 0);
        expect((gainDb(made) as number) >= LEAST_GAIN_DB || clears).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });

  it('what stood only ever puts a change off, and by no more than 0.5 dB', () => {
    fc.assert(
      fc.property(someTimings, fc.nat({ max: 9 }), (timings, i) => {
        const all = alternativesOf(timings);
        const best = recommendedOf(all);
        const standing = all[i % all.length] as Alternative;
        const made = recommendedOf(all, standing);
        expect([best, standing]).toContain(made);
        if (made !== best) expect(gainDb(made) as number).toBeGreaterThanOrEqual((gainDb(best) as number) - STANDS_DB);
        // once followed it stays
        expect(recommendedOf(all, made)).toBe(made);
        expect(recommendedOf(all, best)).toBe(best);
      }),
      { numRuns: 2000 },
    );
  });

  it('turned twice they are as before', () => {
    fc.assert(
      fc.property(someTimings, (timings) => {
        expect(turned(turned(timings))).toEqual(timings);
      }),
    );
  });

  it('an invert that was advised and is done leaves nothing to do, and undone is advised', () => {
    let inverts = 0;
    fc.assert(
      fc.property(timingsWith(known), ([present, ...others]) => {
        // with B turned over about as full as can be
        const { asIs, inverted, ...none } = present as Timing;
        const full = {
          ...inverted,
          lowDb: (inverted.lowDb as number) / 8 + 1,
          allDb: (inverted.allDb as number) / 8 + 1,
        };
        const timings = [{ ...none, asIs, inverted: full }, ...others];
        const made = recommendedOf(alternativesOf(timings));
        if (!isSame(made, { ...NONE, invertB: true })) return;
        inverts++;
        expect(named(recommendedOf(alternativesOf(turned(timings))))).toBe('leave');
        expect(named(recommendedOf(alternativesOf(turned(turned(timings)))))).toBe('invert');
      }),
      { numRuns: 2000 },
    );
    expect(inverts).toBeGreaterThan(100);
  });

  it('of a pair that can only be turned over, one polarity is never advised from both sides', () => {
    fc.assert(
      fc.property(timingsWith(known), (timings) => {
        const only = timings.slice(0, 1);
        const both = [only, turned(only)].map((each) => named(recommendedOf(alternativesOf(each))));
        const { asIs, inverted } = only[0] as Timing;
        const gain = Math.min(
          (inverted.lowDb as number) - (asIs.lowDb as number),
          (inverted.allDb as number) - (asIs.allDb as number),
        );
        const back = Math.min(
          (asIs.lowDb as number) - (inverted.lowDb as number),
          (asIs.allDb as number) - (inverted.allDb as number),
        );
        expect(both).toEqual([gain >= LEAST_GAIN_DB ? 'invert' : 'leave', back >= LEAST_GAIN_DB ? 'invert' : 'leave']);
        expect(both).not.toEqual(['invert', 'invert']);
      }),
    );
  });
});
