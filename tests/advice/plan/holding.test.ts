/** Which plan is held: the table of what is shown for a sequence of hits. The steady advice itself: tests/advice/steady.test.ts. */
import { expect, it } from 'vitest';
import { createHolding, type Held } from '../../../src/advice/plan/holding';
import type { AdviceAction } from '../../../src/advice/plan/planTypes';
import { measured } from '../readings';

type Told = [action: AdviceAction, number?: number | null];

/** What is held at each hit, the number a move's or a delay's. */
function held(sequence: Told[], field: 'moveCm' | 'delayLaterMs' = 'moveCm'): Held[] {
  const holding = createHolding();
  return sequence.map(([action, number = null], i) => {
    const figures = { action, moveCm: null, delayLaterMs: null, [field]: number };
    return holding.feed(figures, measured('same', 3, { hits: i + 1, streamSeconds: i }));
  });
}
const [NEXT, SHOWN, BESIDE] = ['next', 'shown', 'shown-with-newest-beside'] as const;

it.each<[string, Told[], Held[]]>([
  ['the same again', [['leave'], ['leave']], [NEXT, NEXT]],
  ['another action', [['leave'], ['invert'], ['invert']], [NEXT, SHOWN, NEXT]],
  ['an action given up in between', [['leave'], ['invert'], ['leave'], ['invert']], [NEXT, SHOWN, NEXT, SHOWN]],
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
  const leave = { action: 'leave', moveCm: null, delayLaterMs: null } as const;
  expect(holding.feed(leave, at)).toBe(NEXT);
  expect(holding.feed({ ...leave, action: 'invert' }, at)).toBe(SHOWN);
  holding.reset();
  expect(holding.feed({ ...leave, action: 'invert' }, at)).toBe(NEXT);
});
