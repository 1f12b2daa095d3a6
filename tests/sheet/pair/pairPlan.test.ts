import { describe, expect, test } from 'vitest';
import { type Alternative, alternativesOf } from '../../../src/advice/plan/alternatives';
import { changeMicrophone, setReference } from '../../../src/sheet/document/edits';
import { type KitSheet, newPair, type Pair, type Taken } from '../../../src/sheet/document/model';
import { bestInMix, inTheMixOf, isPresent, leftToDo, planOf } from '../../../src/sheet/pair/pairPlan';
import { actionText, byItself, gainsText } from '../../../src/sheet/pair/planWords';
import { DONE, start } from '../../support/readings/sheets';
import { planned, TAKEN, timing, UNPLANNED } from '../../support/readings/taken';

const sheet: KitSheet = start('eight');
const pair = newPair('pair', 'snareTop', 'overheadLeft', 'close-overhead', 'snare');
const turned = changeMicrophone(sheet, 'overheadLeft', { inverted: true });

/** As in a snare and its overhead: inverted gains, the delay with both left gains more, both together lose. */
const NOW = timing(-0.5, -0.3);
const LATER = timing(0.9, 0.8, { delayMs: 2.76 });
const taken: Taken = { ...TAKEN, ...planned(NOW, LATER) };
const of = (more: Partial<Pair> = {}, on = sheet, read = taken) => planOf(on, { ...pair, ...more }, read);
const action = (one: Alternative | null) => one && { invertB: one.invertB, delayMs: one.delayMs, moveCm: one.moveCm };
const LEAVE = { invertB: false, delayMs: null, moveCm: null };

describe('the plan of one pair', () => {
  test('what the reading recommends, whole, with what it gains', () => {
    const { recommended, chosen, alternatives } = of();
    expect(action(recommended)).toEqual({ invertB: false, delayMs: 2.76, moveCm: null });
    // by hand: 10·lg(1.9/0.5), 10·lg(1.8/0.7)
    expect(recommended?.lowDb).toBeCloseTo(5.798, 3);
    expect(recommended?.allDb).toBeCloseTo(4.102, 3);
    expect([chosen, alternatives.length]).toEqual([null, 4]);
  });

  test('a switch that was pressed since turns every alternative: the same end, another way to it', () => {
    const { recommended, alternatives } = of({}, turned);
    expect(action(recommended)).toEqual({ invertB: true, delayMs: 2.76, moveCm: null });
    // by hand, from the other polarity: 10·lg(1.9/1.5)
    expect(recommended?.lowDb).toBeCloseTo(1.027, 3);
    expect(alternatives[0]).toMatchObject({ ...LEAVE, lowDb: 0, allDb: 0 });
    // pressing both is pressing none
    const both = changeMicrophone(turned, 'snareTop', { inverted: true });
    expect(of({}, both)).toEqual(of());
  });

  test('what was put off to the mix is chosen, with its gains, and turns with the switches too', () => {
    const later = { invertB: true, delayMs: null };
    const { chosen, recommended } = of({ done: { ...DONE, later } });
    expect(action(chosen)).toEqual({ ...later, moveCm: null });
    expect(chosen?.lowDb).toBeCloseTo(10 * Math.log10(1.5 / 0.5), 9);
    expect(action(recommended)).not.toEqual(action(chosen));
    expect(action(leftToDo(of({ done: { ...DONE, later } })))).toEqual({ ...later, moveCm: null });
    expect(action(of({ done: { ...DONE, later } }, turned).chosen)).toEqual(LEAVE);
    // a delay that no alternative has: nobody knows what it gains
    const other = of({ done: { ...DONE, later: { invertB: false, delayMs: 1 } } });
    expect(other.chosen).toMatchObject({ delayMs: 1, lowDb: null, allDb: null });
    expect(leftToDo(other)).toBe(other.chosen);
  });

  test('left on purpose: as it was accepted, also when a switch is pressed later', () => {
    const done = { ...DONE, leftOnPurpose: true };
    expect(action(of({ done }).chosen)).toEqual(LEAVE);
    expect(action(of({ done }, turned).chosen)).toEqual({ ...LEAVE, invertB: true });
  });

  test('the best in the mix for either way of the switch: no half of two alternatives, and no move', () => {
    const plan = of();
    expect(action(bestInMix(plan, false))).toEqual({ invertB: false, delayMs: 2.76, moveCm: null });
    expect(action(bestInMix(plan, true))).toEqual({ invertB: true, delayMs: null, moveCm: null });
    const move = timing(0.9, 0.9, { moveCm: 3 });
    const moving = of({}, sheet, { ...TAKEN, ...planned(NOW, move, LATER) });
    expect(action(moving.recommended)).toMatchObject({ moveCm: 3 });
    expect(action(inTheMixOf(moving))).toEqual({ invertB: false, delayMs: 2.76, moveCm: null });
  });

  test('where nothing was recommended nothing is, whatever the sum says; the facts stay', () => {
    const old = of({}, sheet, { ...TAKEN, timings: [timing(-0.7, null)], plan: null });
    expect([old.recommended, old.chosen, leftToDo(old), inTheMixOf(old)]).toEqual([null, null, null, null]);
    expect(old.alternatives[1]?.lowDb).toBeGreaterThan(7);
    expect(of({}, sheet, { ...TAKEN, ...UNPLANNED }).alternatives).toEqual([]);
    expect(bestInMix(of({}, sheet, { ...TAKEN, ...UNPLANNED }), true)).toBeNull();
  });

  test('the recommended one is one of the alternatives, whichever way the switches stand', () => {
    for (const on of [sheet, turned]) {
      const { recommended, alternatives } = of({}, on);
      expect(alternatives).toContain(recommended);
    }
    expect(alternativesOf([NOW, LATER]).filter(isPresent)).toHaveLength(1);
  });
});

describe('in words', () => {
  const text = (
    invertB: boolean,
    delayMs: number | null,
    moveCm: number | null = null,
    inverted = byItself(sheet, pair, { invertB }),
  ) => actionText({ sampleRate: 44100 }, pair, { delayMs, moveCm }, { inverted, nameOf: (id) => id });

  test('invert, delay and move together, or that both are left', () => {
    expect(text(false, null)).toBe('leave both as they are');
    // the top is what the snare's delays are told against, until the overhead is
    expect(text(true, null)).toBe('invert overheadLeft');
    expect(byItself(setReference(sheet, 'snare', 'overheadLeft'), pair, { invertB: true })).toEqual(['snareTop']);
    // by hand: 2.76 ms · 44.1 = 121.7
    expect(text(false, 2.76)).toBe('delay snareTop by 2.76 ms (122 samples); leave both polarities');
    expect(text(true, -0.5)).toBe('invert overheadLeft and delay overheadLeft by 0.5 ms (22 samples)');
    expect(text(false, null, 2.5)).toBe('move overheadLeft 2.5 cm closer to the drum');
    expect(text(true, null, -2.5)).toBe('invert overheadLeft and move overheadLeft 2.5 cm back from the drum');
    expect(text(false, null, null, ['snareTop', 'overheadLeft'])).toBe('invert snareTop and overheadLeft');
  });

  test('what it gains, in the drum’s low octave and over all, or what isn’t known of it', () => {
    const said = (lowDb: number | null, allDb: number | null, more: Partial<Taken> = {}) =>
      gainsText({ lowDb, allDb }, { ...TAKEN, ...more });
    expect(said(5.84, -0.32)).toBe('+6 dB in the drum’s low octave (177–354 Hz) and −0.5 dB overall');
    expect(said(5.84, null)).toBe('+6 dB in the drum’s low octave (177–354 Hz) and unknown overall');
    expect(said(null, 5.84, { fullerLowHz: null })).toBe('unknown in the drum’s low octave and +6 dB overall');
    expect(said(null, null)).toBe('what A+B gains is unknown');
  });
});
