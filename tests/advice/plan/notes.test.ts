/** What stands beside a plan, and what the meter's own invert and a pressed switch change: codes and numbers. */
import { describe, expect, it } from 'vitest';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import type { PlanContext } from '../../../src/advice/plan/planTypes';
import type { Polarity } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { bands, measured, sums } from '../readings';
import { about, noted, planOf } from './plans';

describe('another band', () => {
  it.each<[string, Partial<Flat>, Partial<Record<string, unknown>> | undefined]>([
    [
      'strong',
      { bands: bands({ mid: -3 }) },
      { lowHz: 800, highHz: 3000, db: expect.closeTo(3, 9), prefers: 'inverted' },
    ],
    ['the strongest of two', { bands: bands({ mid: -3, attack: -5 }) }, { lowHz: 3000, highHz: 10000 }],
    ['too weak', { bands: bands({ mid: -1.5 }) }, undefined],
    ['below the drum', { bands: bands({ low: -6 }) }, undefined],
    ['of one mind', { bands: bands({ mid: 3 }) }, undefined],
    [
      'against a sum that turns it',
      { ...sums('inverted', 4, 177, 354), bands: bands({ mid: 3 }) },
      { prefers: 'as-is' },
    ],
  ])('%s', (_, fields, note) => {
    const made = planOf('apart', 'other', measured('same', 100, { ...sums('as-is', 4, 177, 354), ...fields }));
    const other = noted(made, 'another-band-opposite');
    if (note === undefined) expect(other).toBeUndefined();
    else expect(other).toMatchObject(note);
  });
});

describe("the meter's own invert", () => {
  it.each<[PairKindId, Polarity, number, string, boolean, boolean, number | null]>([
    ['top-bottom', 'same', 0.5, 'invert', false, true, null],
    ['same-side', 'inverted', 0.3, 'leave', true, false, null],
    ['same-side', 'same', 2.5, 'invert-and-move', false, true, 2.5],
    ['same-side', 'inverted', -3, 'move', true, false, -3],
  ])('%s, %s, %d cm: %s at the real switch', (kind, polarity, cm, action, flip, press, moveCm) => {
    const made = planOf('together', kind, measured(polarity, cm), { invertB: true });
    expect(made.action).toBe(action);
    expect(made.recommended).toMatchObject({ flip, press, moveCm });
  });

  it('turns nothing of what is kept from the reading', () => {
    const r = measured('inverted', 100, sums('as-is'));
    const [off, on] = [planOf('apart', 'close-overhead', r), planOf('apart', 'close-overhead', r, { invertB: true })];
    expect([on.gap, on.conflict, on.recommended.flip]).toEqual([off.gap, off.conflict, off.recommended.flip]);
    expect([off.action, on.action]).toEqual(['leave', 'invert']);
  });
});

describe('what is usual', () => {
  const unusual = (kind: PairKindId, polarity: Polarity, more: Partial<PlanContext> = {}) =>
    noted(about(kind, measured(polarity, 0.2), more), 'unusual-polarity');

  it.each<[PairKindId, Polarity, boolean]>([
    ['same-side', 'inverted', true],
    ['same-side', 'same', false],
    ['top-bottom', 'same', true],
    ['top-bottom', 'inverted', false],
    ['both-sides-kick', 'same', true],
    ['inside-outside', 'inverted', true],
    ['close-room', 'inverted', false],
    ['other', 'inverted', false],
  ])('%s, %s: unusual %s', (kind, polarity, expected) => {
    expect(unusual(kind, polarity) !== undefined).toBe(expected);
  });

  it('is a matter of the wiring, not of the meter’s invert', () => {
    expect(unusual('top-bottom', 'same', { invertB: true })).toBeUndefined();
    expect(unusual('top-bottom', 'inverted', { invertB: true })).toBeDefined();
  });

  it('counts a switch that is known to be pressed', () => {
    expect(unusual('top-bottom', 'same', { switched: true })).toBeUndefined();
    expect(unusual('top-bottom', 'inverted', { switched: false })).toBeUndefined();
    expect(unusual('top-bottom', 'inverted', { switched: true })).toEqual({
      code: 'unusual-polarity',
      switchKnown: true,
    });
    expect(unusual('top-bottom', 'same', { switched: false })?.switchKnown).toBe(true);
    expect(unusual('top-bottom', 'same')?.switchKnown).toBe(false);
  });
});
