import { describe, expect, test } from 'vitest';
import { PAIR_KIND_IDS, pairKind } from '../../../src/advice/plan/pairKinds';
import { type KitSheet, newPair, type Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { expectedOf } from '../../../src/sheet/pair/expected';
import { planned, TAKEN, timing, UNPLANNED } from '../../support/readings/taken';

const sheet: KitSheet = sheetFrom(STARTS[3] as (typeof STARTS)[number], 'kit', 'Quay');
const snare = newPair('pair', 'snareTop', 'snareBottom', 'top-bottom', 'snare');
const of = (more: Partial<Taken>, pair = snare) => expectedOf(sheet, pair, { ...TAKEN, ...more });

const LEAVE = planned(timing(0.7, 0.5));

describe('what was expected beside what was read, and how the plan goes with it', () => {
  test('top and bottom as wired: inverted, and read so; so the plan inverts it', () => {
    expect(of({})).toEqual({
      polarity: 'inverted',
      verdict: 'met',
      text: 'Expected inverted, measured inverted. Snare bottom hears the hit the other way round, as usual, so the plan inverts it.',
    });
    expect(of({ ...LEAVE }).text).toBe(
      'Expected inverted, measured inverted. As usual, and fuller with both polarities left as they are.',
    );
    // less than 0.5 dB in one of the two, or not known: then nothing is said of fuller
    for (const gains of [timing(0.7, 0.05), timing(0.7, null)])
      expect(of({ ...LEAVE, timings: [gains] }).text).toBe(
        'Expected inverted, measured inverted. As usual; the plan leaves both polarities as they are.',
      );
    expect(of({ ...UNPLANNED }).text).toBe('Measured inverted, as expected.');
  });

  test('inverted at the preamp: then the same polarity is expected, and the switch is named', () => {
    expect(of({ bInverted: true, polarity: 'same', fuller: 'as-is', ...LEAVE })).toEqual({
      polarity: 'same',
      verdict: 'met',
      text: 'Measured same, with Snare bottom inverted, as expected.',
    });
  });

  test('as usual, and the sum wants the other polarity all the same: said why', () => {
    const pair = { ...snare, kind: 'same-side' } as const;
    expect(of({ polarity: 'same', delayMs: 2 }, pair).text).toBe(
      'Expected same, measured same. As usual at the first push; over the whole hit the two are fuller with Snare bottom inverted.',
    );
  });

  test('a switch at the preamp turns what is expected, not what is usual of the wiring', () => {
    expect(of({ bInverted: true, polarity: 'inverted' }).text).toMatch(
      /These two usually start in opposite directions\. /,
    );
  });

  test('inverted for a sum that isn’t known to be fuller: not said to be', () => {
    const pair = { ...snare, kind: 'same-side' } as const;
    const given: Partial<Taken> = { polarity: 'same', delayMs: 2, timings: [timing(-0.7, 0.05)] };
    expect(of(given, pair).text).toBe(
      'Expected same, measured same. The first push is as usual; the plan inverts Snare bottom.',
    );
  });

  test('another polarity than expected: cable and switch first, then the plan', () => {
    const { verdict, text } = of({ polarity: 'same', fuller: 'as-is', ...LEAVE });
    expect(verdict).toBe('other');
    expect(text).toBe(
      'Expected inverted, measured same. These two usually start in opposite directions. Stop the drummer, monitors down, and check the cables and the polarity switches first; if they are right, leave both as they are.',
    );
    expect(of({}, { ...snare, kind: 'same-side' }).text).toBe(
      'Expected same, measured inverted. These two usually start the same way. Stop the drummer, monitors down, and check the cables and the polarity switches first; if they are right, invert Snare bottom.',
    );
    const later = planned(timing(0, 0), timing(0.9, 0.9, { delayMs: 2 }));
    expect(of({ polarity: 'same', fuller: 'as-is', ...later }).text).toMatch(
      /; if they are right, delay Snare top by 2 ms \(96 samples\); leave both polarities\.$/,
    );
    expect(of({ polarity: 'same', fuller: 'as-is', ...UNPLANNED }).text).toMatch(
      /Stop the drummer, monitors down, and check the cables and the polarity switches first\.$/,
    );
  });

  test('arrival as expected, low octave the other way: the low-cut and contour switches first, then the plan', () => {
    const { verdict, text } = of({ fuller: 'as-is', ...LEAVE });
    expect(verdict).toBe('low-octave');
    expect(text).toBe(
      'Expected inverted, measured inverted. Stop the drummer and compare the two mics’ low-cut and contour switches first: the drum’s low octave and the first push disagree; if the switches match, leave both as they are.',
    );
  });

  test('whatever is expected and read: no sentence says invert where the plan doesn’t, and none hides that it does', () => {
    for (const kind of PAIR_KIND_IDS)
      for (const polarity of ['same', 'inverted'] as const)
        for (const fuller of ['as-is', 'inverted'] as const)
          for (const bInverted of [true, false]) {
            const given = { polarity, fuller, bInverted };
            const pair = { ...snare, kind };
            expect(of({ ...given, ...LEAVE }, pair).text).not.toMatch(/invert (Snare|one)|plan inverts/);
            const { verdict, text } = of(given, pair);
            if (verdict !== 'open')
              expect(text).toMatch(/invert Snare bottom|Snare bottom inverted\.|the plan inverts (Snare bottom|it)\./);
            expect(text).not.toMatch(/leave/);
          }
  });

  test('a delay that turns the low octave explains it: nothing odd', () => {
    // 1 ms is a quarter of a turn at 250 Hz
    expect(of({ fuller: 'as-is', delayMs: 1 }).verdict).toBe('met');
    expect(of({ fuller: 'as-is', fullerDb: 2 }).verdict).toBe('met');
    expect(of({ fuller: 'either' }).verdict).toBe('met');
  });

  test('an unsure reading is never met', () => {
    expect(of({ sure: false })).toMatchObject({ polarity: 'inverted', verdict: 'open' });
  });

  for (const kind of PAIR_KIND_IDS)
    test(`${kind}: both switches inverted are as none; one turns what is expected`, () => {
      const pair = { ...snare, kind };
      const usual = pairKind(kind).expectedPolarity;
      expect(of({}, pair).polarity).toBe(usual === 'either' ? null : usual);
      expect(of({ aInverted: true, bInverted: true }, pair).polarity).toBe(of({}, pair).polarity);
      const turned = of({ aInverted: true }, pair).polarity;
      if (usual === 'either') expect(turned).toBeNull();
      else expect(turned).not.toBe(usual);
    });
});
