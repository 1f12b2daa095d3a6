import { describe, expect, test } from 'vitest';
import { PAIR_KIND_IDS, pairKind } from '../../../src/advice/plan/pairKinds';
import { type KitSheet, newPair, type Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { expectedOf } from '../../../src/sheet/pair/expected';
import { TAKEN } from '../../support/readings/taken';

const sheet: KitSheet = sheetFrom(STARTS[3] as (typeof STARTS)[number], 'kit', 'Quay');
const snare = newPair('pair', 'snareTop', 'snareBottom', 'top-bottom', 'snare');
const of = (more: Partial<Taken>, pair = snare) => expectedOf(sheet, pair, { ...TAKEN, ...more });

describe('what was expected beside what was read', () => {
  test('top and bottom as wired: inverted, and read so', () => {
    expect(of({})).toEqual({
      polarity: 'inverted',
      verdict: 'met',
      text: 'Expected inverted, read inverted: as expected.',
    });
  });

  test('inverted at the preamp: then the same polarity is expected, and the switch is named', () => {
    expect(of({ bInverted: true, polarity: 'same', fuller: 'as-is' })).toEqual({
      polarity: 'same',
      verdict: 'met',
      text: 'Expected same, read same, Snare bottom inverted at its switch: as expected.',
    });
  });

  test('another polarity than expected: cable, switch and patch come before inverting', () => {
    const { verdict, text } = of({ polarity: 'same', fuller: 'as-is' });
    expect(verdict).toBe('other');
    expect(text).toMatch(/cable.*switch.*patch/);
  });

  test('arrival as expected, low band the other way: the low-cut and voicing switches first', () => {
    const { verdict, text } = of({ fuller: 'as-is' });
    expect(verdict).toBe('low-band');
    expect(text).toMatch(/low-cut and voicing/);
  });

  test('a delay that turns the low band explains it: nothing odd', () => {
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
