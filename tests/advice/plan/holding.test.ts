/** Which plan is held: the table of what is shown for a sequence of hits. The steady advice itself: tests/advice/steady.test.ts. */
import { expect, it } from 'vitest';
import { createHolding, type Held } from '../../../src/advice/plan/holding';
import type { AdviceAction, PlanFigures } from '../../../src/advice/plan/planTypes';
import { measured } from '../readings';

const PLAIN: PlanFigures = {
  action: 'leave',
  moveCm: null,
  delayLaterMs: null,
  lowDb: 0,
  allDb: 0,
  fine: false,
  timed: true,
  chosen: false,
};

type Told = [action: AdviceAction, number?: number | null];

/** What is held at each hit, the number a move's or a delay's. */
function held(sequence: Told[], field: 'moveCm' | 'delayLaterMs' | 'lowDb' | 'allDb' = 'moveCm'): Held[] {
  const holding = createHolding();
  return sequence.map(([action, number = null], i) => {
    const figures = { ...PLAIN, action, [field]: number };
    return holding.feed(figures, measured('same', 3, { hits: i + 1, streamSeconds: i }));
  });
}
const [NEXT, SHOWN, BESIDE] = ['next', 'shown', 'shown-with-newest-beside'] as const;

it.each<[string, Told[], Held[]]>([
  ['the same again', [['leave'], ['leave']], [NEXT, BESIDE]],
  ['another action', [['leave'], ['invert'], ['invert']], [NEXT, SHOWN, NEXT]],
  ['an action given up in between', [['leave'], ['invert'], ['leave'], ['invert']], [NEXT, SHOWN, BESIDE, SHOWN]],
  ['three hits against it', [['leave'], ['invert'], ['cannot-tell'], ['invert']], [NEXT, SHOWN, SHOWN, NEXT]],
  ['the first answer', [['hit-more'], ['leave']], [NEXT, NEXT]],
  ['a lost answer', [['leave'], ['hit-more'], ['hit-more']], [NEXT, SHOWN, NEXT]],
  ['an input that fails and comes back', [['leave'], ['fix-input'], ['leave']], [NEXT, NEXT, NEXT]],
  [
    'half a step',
    [
      ['move', 3],
      ['move', 3.3],
      ['move', 3.3],
    ],
    [NEXT, BESIDE, BESIDE],
  ],
  [
    'a step',
    [
      ['move', 3],
      ['move', 3.5],
      ['move', 3.5],
    ],
    [NEXT, BESIDE, NEXT],
  ],
  [
    'a step up, then down',
    [
      ['move', 3],
      ['move', 3.5],
      ['move', 2.5],
    ],
    [NEXT, BESIDE, BESIDE],
  ],
  ['a number that goes', [['invert', 3], ['invert'], ['invert']], [NEXT, BESIDE, NEXT]],
])('%s', (_, sequence, expected) => {
  expect(held(sequence)).toEqual(expected);
});

it('steps of a delay are 0.02 ms', () => {
  expect(
    held(
      [
        ['delay-later', 1],
        ['delay-later', 1.01],
        ['delay-later', 1.01],
      ],
      'delayLaterMs',
    ),
  ).toEqual([NEXT, BESIDE, BESIDE]);
  expect(
    held(
      [
        ['delay-later', 1],
        ['delay-later', 1.02],
        ['delay-later', 1.02],
      ],
      'delayLaterMs',
    ),
  ).toEqual([NEXT, BESIDE, NEXT]);
});

it('a person’s change is shown at once', () => {
  const holding = createHolding();
  const at = measured('same', 3, { hits: 5 });
  const leave = PLAIN;
  expect(holding.feed(leave, at)).toBe(NEXT);
  expect(holding.feed({ ...leave, action: 'invert' }, at)).toBe(SHOWN);
  holding.reset();
  expect(holding.feed({ ...leave, action: 'invert' }, at)).toBe(NEXT);
});

it.each(['lowDb', 'allDb'] as const)('a gain counts by whole decibels: %s', (field) => {
  const gains = (...db: (number | null)[]): Held[] =>
    held(
      db.map((x): Told => ['invert', x]),
      field,
    );
  expect(gains(3, 3.9, 3.9, 2.1, 2.1)).toEqual([NEXT, BESIDE, BESIDE, BESIDE, BESIDE]);
  expect(gains(3, 4, 4)).toEqual([NEXT, BESIDE, NEXT]);
  expect(gains(3, 2, 2)).toEqual([NEXT, BESIDE, NEXT]);
  // to either side of what is shown: neither
  expect(gains(3, 4, 2, 4, 2)).toEqual([NEXT, BESIDE, BESIDE, BESIDE, BESIDE]);
  // what drifts by less than that is measured from what is shown
  expect(gains(3, 3.6, 4.2, 4.2)).toEqual([NEXT, BESIDE, BESIDE, NEXT]);
  expect(gains(3, null, null)).toEqual([NEXT, BESIDE, NEXT]);
  expect(gains(null, 3, 3)).toEqual([NEXT, BESIDE, NEXT]);
});

it.each(['fine', 'timed', 'chosen'] as const)('two hits for what is %s, and for what is no longer', (field) => {
  const holding = createHolding();
  const feed = (hits: number, value: boolean): Held =>
    holding.feed({ ...PLAIN, [field]: value }, measured('same', 0.2, { hits, streamSeconds: hits }));
  expect([feed(1, false), feed(2, true), feed(3, false), feed(4, true), feed(4, true), feed(5, true)]).toEqual([
    NEXT,
    BESIDE,
    BESIDE,
    BESIDE,
    BESIDE,
    NEXT,
  ]);
  expect([feed(6, false), feed(7, false)]).toEqual([BESIDE, NEXT]);
});

it('two figures that change together count as one', () => {
  const holding = createHolding();
  const at = (hits: number) => measured('same', 3, { hits, streamSeconds: hits });
  expect(holding.feed({ ...PLAIN, action: 'move', moveCm: 3, lowDb: 2 }, at(1))).toBe(NEXT);
  expect(holding.feed({ ...PLAIN, action: 'move', moveCm: 4, lowDb: 5 }, at(2))).toBe(BESIDE);
  // one of them is back: another side, counted anew
  expect(holding.feed({ ...PLAIN, action: 'move', moveCm: 4, lowDb: 2 }, at(3))).toBe(BESIDE);
  expect(holding.feed({ ...PLAIN, action: 'move', moveCm: 4, lowDb: 2 }, at(4))).toBe(NEXT);
});
