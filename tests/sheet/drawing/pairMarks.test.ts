/** What stands on a pair's line, and beside the drawing. */
import { expect, test } from 'vitest';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { micNotes, pairMark } from '../../../src/sheet/drawing/pairMarks';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { allTogether } from '../../../src/sheet/print/allTogether';
import { taken } from '../../support/readings/kits';
import { DONE, start, withPairs } from '../../support/readings/sheets';

const ID = 'snareTop-snareBottom';
const eight = start('eight');
const kit = (more: Partial<Pair>): KitSheet => withPairs(eight, { [ID]: more });
const choiceOf = (sheet: KitSheet) => kitSystem(sheet).choice;
const markOf = (more: Partial<Pair>, next: string | null = null) => {
  const sheet = kit(more);
  return pairMark(sheet, choiceOf(sheet), sheet.pairs.find(({ id }) => id === ID) as Pair, next);
};
const say = (sheet: KitSheet): string[] => allTogether(sheet, choiceOf(sheet));

test('not measured: dotted, no words; the next one says so', () => {
  const open = { pair: ID, look: 'dotted', found: '', left: '', state: 'ask', next: false };
  expect(markOf({ acceptedAt: null })).toEqual(open);
  expect(markOf({ acceptedAt: null }, ID)).toEqual({ ...open, left: 'measure next', next: true });
});

test('certain and inverted: solid, with polarity and distance, and what is left', () => {
  const before = taken('inverted', 0.1, 'inverted');
  // 0.1 ms at 20 °C: 3.4 cm
  expect(markOf({ before })).toMatchObject({ look: 'solid', found: 'inverted, 3.5 cm', left: 'invert', state: 'todo' });
  const sheet = kit({ before });
  expect([...micNotes(sheet, choiceOf(sheet)).values()]).toEqual(['invert']);
  const [invert, gain, rest] = say(sheet);
  expect(invert).toMatch(/^Invert Snare (top|bottom)\.$/);
  expect(gain).toMatch(/^Snare top and Snare bottom gain \+[\d.]+ dB in the low octave, \+[\d.]+ dB overall\.$/);
  expect(rest).toBe(`${eight.pairs.length - 1} pairs not measured yet.`);
});

test('certain and as it should be: nothing to do; not accepted: to accept; left on purpose: left', () => {
  const before = taken('same', 0.1, 'as-is');
  expect(markOf({ before })).toMatchObject({ found: 'same, 3.5 cm', left: 'nothing to do', state: 'done' });
  expect(markOf({ before, acceptedAt: null })).toMatchObject({ left: 'to accept', state: 'todo' });
  const left = { before: taken('inverted', 0.1, 'inverted'), done: { ...DONE, leftOnPurpose: true } };
  expect(markOf(left)).toMatchObject({ left: 'left as it is', state: 'done' });
});

test('uncertain: dashed, and never a polarity or a distance', () => {
  const mark = markOf({ before: taken('inverted', 0.1, null, { sure: false, reason: 'too few hits' }) });
  expect(mark).toMatchObject({ look: 'dashed', found: 'uncertain', state: 'ask' });
  expect(JSON.stringify(mark)).not.toMatch(/ cm|inverted|same/);
});

test('a switch that is inverted is told at the mic where nothing is to be done', () => {
  const sheet = { ...eight, microphones: eight.microphones.map((one) => ({ ...one, inverted: one.id === 'kickIn' })) };
  expect([...micNotes(sheet, choiceOf(sheet))]).toEqual([['kickIn', 'switch inverted']]);
});

test('all together says what isn’t known: uncertain, not accepted, not measured, nothing accepted', () => {
  expect(say(eight)).toEqual(['No pair is accepted yet.', `${eight.pairs.length} pairs not measured yet.`]);
  expect(say(kit({ before: taken('same', 0.1, null, { sure: false }) }))).toContain(
    'Snare top and Snare bottom: the reading is uncertain.',
  );
  const before = taken('same', 0.1, 'as-is');
  expect(say(kit({ before, acceptedAt: null }))).toContain('1 pair measured, not accepted.');
  expect(say(kit({ before }))[0]).toBe('Leave all polarity switches and delays as they are.');
  expect(allTogether(kit({ before }), null)).toEqual([`${eight.pairs.length - 1} pairs not measured yet.`]);
});

test('a pair that pays for the others is told with both figures; no sentence is long', () => {
  const before = taken('inverted', 0, 'inverted');
  const ring = ['snareTop-overheadLeft', 'snareTop-overheadRight', 'overheadLeft-overheadRight'];
  const said = say(withPairs(start('four'), Object.fromEntries(ring.map((id) => [id, { before }]))));
  expect(said.filter((text) => text.includes('instead of'))).toHaveLength(1);
  for (const text of said) expect(text.length).toBeLessThan(140);
});
