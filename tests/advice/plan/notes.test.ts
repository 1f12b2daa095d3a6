/** What stands beside a plan, and what the meter's own invert and a pressed switch change: codes and numbers. */
import { describe, expect, it } from 'vitest';
import { PAIR_KIND_IDS, type PairKindId } from '../../../src/advice/plan/pairKinds';
import type { PlanContext } from '../../../src/advice/plan/planTypes';
import type { Polarity } from '../../../src/reading/reading';
import { measured, sumOf, turnedOver } from '../readings';
import { about, noted, planOf } from './plans';

/** the sum's own figures of BANDS, turned over for the bands named: Re γ */
function withBands(gammas: [number, number, number, number]) {
  const sum = sumOf({ polarity: 'same', delaySamples: 0 });
  const [low, all] = sum.now ?? [];
  return { ...sum, now: [low ?? null, all ?? null, ...gammas] };
}

describe('a band that the plan costs, or that would gain', () => {
  // 10·log10((1 − r)/(1 + r)): −0.5 → 4.77 dB, −0.3 → 2.69 dB, −0.2 → 1.76 dB
  it.each<[string, [number, number, number, number], object | undefined]>([
    ['strong', [0.9, 0.9, -0.5, 0.9], { lowHz: 800, highHz: 3000, db: expect.closeTo(4.77, 2) }],
    ['the strongest of two', [0.9, 0.9, -0.3, -0.5], { lowHz: 3000, highHz: 10000 }],
    ['too weak', [0.9, 0.9, -0.2, 0.9], undefined],
    ['of one mind', [0.9, 0.9, 0.9, 0.9], undefined],
  ])('would gain: %s', (_, gammas, note) => {
    const made = planOf('answer', 'other', measured('same', 0.3, withBands(gammas)));
    expect(made.action).toBe('leave');
    const found = noted(made, 'band-would-gain');
    if (note === undefined) expect(found).toBeUndefined();
    else expect(found).toMatchObject(note);
    expect(noted(made, 'band-loses')).toBeUndefined();
  });

  it('costs: told by what is recommended', () => {
    const r = turnedOver(measured('same', 0.3, withBands([0.9, 0.9, -0.5, 0.9])));
    const made = planOf('answer', 'other', r);
    expect(made.action).toBe('invert');
    expect(noted(made, 'band-loses')).toMatchObject({ lowHz: 800, highHz: 3000, db: expect.closeTo(4.77, 2) });
    expect(noted(made, 'band-would-gain')).toBeUndefined();
  });
});

describe('the sum against the first push', () => {
  it('is a note with both, and the plan goes by the sum', () => {
    const r = measured('same', 0.3, sumOf({ polarity: 'inverted', delaySamples: 0 }));
    const made = planOf('answer', 'other', r);
    expect(made.action).toBe('invert');
    expect(made.notes[0]).toMatchObject({
      code: 'sum-not-as-arrival',
      polarity: 'same',
      vote: { prefers: 'inverted', db: expect.closeTo(12.79, 1), lowHz: 60, highHz: 120 },
    });
    expect(noted(about('other', measured('same', 0.3)), 'sum-not-as-arrival')).toBeUndefined();
    expect(noted(about('other', measured('inverted', 0.3)), 'sum-not-as-arrival')).toBeUndefined();
    // below 1 dB neither polarity is fuller
    const even = sumOf({ polarity: 'inverted', delaySamples: 0, common: 0.1 });
    expect(noted(about('other', measured('same', 0.3, even)), 'sum-not-as-arrival')).toBeUndefined();
  });
});

describe('what belongs to the pair', () => {
  it('the drum lies between top and bottom that are further apart than 6 cm', () => {
    const made = planOf('answer', 'top-bottom', measured('inverted', 9));
    expect(made.recommended.moveCm).toBeNull();
    expect(noted(made, 'drum-in-the-gap')?.pathCm).toBeCloseTo(9, 9);
    expect(noted(about('top-bottom', measured('inverted', 5)), 'drum-in-the-gap')).toBeUndefined();
  });

  it('both of a stereo pair are inverted alike', () => {
    for (const kind of PAIR_KIND_IDS) {
      const has = noted(about(kind, measured('inverted', 0.2)), 'invert-both-of-a-pair') !== undefined;
      expect([kind, has]).toEqual([kind, kind === 'close-overhead' || kind === 'close-room']);
    }
    expect(planOf('answer', 'close-room', measured('same', 100)).notes).toEqual([]);
    // what counts is B's own switch, not how the meter shows it
    for (const kind of ['close-overhead', 'close-room'] as const) {
      const on = (polarity: Polarity) => about(kind, turnedOver(measured(polarity, 0.2)), { invertB: true });
      expect(noted(on('same'), 'invert-both-of-a-pair')).toBeUndefined();
      expect(noted(on('inverted'), 'invert-both-of-a-pair')).toBeDefined();
    }
  });

  it('a move changes more than a delay', () => {
    expect(noted(about('same-side', measured('same', 3)), 'move-changes-sound')).toBeDefined();
    expect(noted(about('other', measured('same', 100)), 'move-changes-sound')).toBeUndefined();
  });
});

describe("the meter's own invert", () => {
  it.each<[PairKindId, Polarity, number, string, boolean, number | null]>([
    ['top-bottom', 'inverted', 0.5, 'invert', false, null],
    ['same-side', 'same', 0.3, 'leave', true, null],
    ['same-side', 'inverted', 2.5, 'invert-and-move', false, 2.5],
    ['same-side', 'same', -3, 'move', true, -3],
  ])('%s, %s as the inputs have it, %d cm: %s at the real switch', (kind, polarity, cm, action, flip, moveCm) => {
    const r = measured(polarity, cm);
    const made = planOf('answer', kind, turnedOver(r), { invertB: true });
    expect([made.action, made.flip, made.recommended.moveCm]).toEqual([action, flip, moveCm]);
    const off = planOf('answer', kind, r);
    expect(made.alternatives).toEqual(off.alternatives);
    expect([off.action, off.flip]).toEqual([action, !flip]);
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
    expect(unusual('top-bottom', 'inverted', { switched: true })).toMatchObject({
      code: 'unusual-polarity',
      switchKnown: true,
      todo: { invertB: true, delayMs: null, moveCm: null },
      flip: true,
    });
    expect(unusual('top-bottom', 'same', { switched: false })?.switchKnown).toBe(true);
    expect(unusual('top-bottom', 'same')?.switchKnown).toBe(false);
  });
});
