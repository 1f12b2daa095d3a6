import { describe, expect, test } from 'vitest';
import { addMissing, addPair, changeMicrophone } from '../../../src/sheet/document/edits';
import type { KitSheet, Pair, Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { kitSystem } from '../../../src/sheet/kit/system';
import { recheck, recheckText } from '../../../src/sheet/pair/recheck';
import { nextToCheck, outcomeOf, progressOf, proposed } from '../../../src/sheet/pair/roundRules';
import { TAKEN } from '../../support/taken';

const four = sheetFrom(STARTS[2] as (typeof STARTS)[number], 'kit', 'Quay');
const ids = four.pairs.map(({ id }) => id);
const accepted = (sheet: KitSheet, ...done: string[]): KitSheet => ({
  ...sheet,
  pairs: sheet.pairs.map((pair): Pair => (done.includes(pair.id) ? { ...pair, before: TAKEN, acceptedAt: 'x' } : pair)),
});
const next = (sheet: KitSheet, drum: string | null = null, later: string[] = []) =>
  proposed(sheet, kitSystem(sheet), drum, new Set(later));

/** At 20 °C sound goes 34.32 cm in a ms. */
const CM_PER_MS = 34.32;
const farther = (taken: Taken, cm: number): Taken => ({ ...taken, delayMs: (taken.delayMs ?? 0) + cm / CM_PER_MS });

describe('which pair comes next', () => {
  test('in the sheet’s order, those put off after the others, none when all are accepted', () => {
    expect(next(four)).toEqual({ pair: ids[0], why: 'todo' });
    expect(next(accepted(four, ids[0] as string))?.pair).toBe(ids[1]);
    expect(next(four, null, [ids[0] as string])?.pair).toBe(ids[1]);
    expect(next(four, null, ids)?.pair).toBe(ids[0]);
    expect(next({ ...four, pairs: [] })).toBeNull();
  });

  test('a reading that can’t be right comes again while its drum is being struck, and at the end otherwise', () => {
    // the three of the snare: same, same, inverted can't all be
    const three = four.pairs.filter(({ drum }) => drum === 'snare').map(({ id }) => id);
    expect(three).toHaveLength(3);
    const polarity = (id: string): Taken => ({
      ...TAKEN,
      polarity: id === three[2] ? 'inverted' : 'same',
      delayMs: null,
      agreement: id === three[2] ? 0.75 : 1,
    });
    const odd: KitSheet = {
      ...four,
      pairs: four.pairs.map((pair) =>
        three.includes(pair.id) ? { ...pair, before: polarity(pair.id), acceptedAt: 'x' } : pair,
      ),
    };
    expect(next(odd, 'snare')).toEqual({ pair: three[2], why: 'again' });
    expect(next(odd, 'kick')?.why).toBe('todo');
    const rest = four.pairs.filter(({ id }) => !three.includes(id)).map(({ id }) => id);
    expect(next(accepted(odd, ...rest), 'kick')).toEqual({ pair: three[2], why: 'again' });
    // just read again: not a third time at once
    expect(next(odd, 'snare', [three[2] as string])?.why).toBe('todo');
  });

  test('a second look goes through the accepted ones and comes round', () => {
    const two = accepted(four, ids[0] as string, ids[2] as string);
    expect(nextToCheck(two, null)).toBe(ids[0]);
    expect(nextToCheck(two, ids[0] as string)).toBe(ids[2]);
    expect(nextToCheck(two, ids[2] as string)).toBe(ids[0]);
    expect(nextToCheck(four, null)).toBeNull();
    expect(progressOf(two)).toEqual({ accepted: 2, unsure: 0, pairs: ids.length });
  });
});

describe('what was done, seen from the readings', () => {
  test('nothing: the newer reading is the only one', () => {
    const now = { ...TAKEN, hitsUsed: 12 };
    expect(outcomeOf(TAKEN, now)).toEqual({ before: now, after: null, done: null });
    expect(outcomeOf(null, now)).toEqual({ before: now, after: null, done: null });
  });

  test('B’s switch was pressed, A’s, and both', () => {
    const b: Taken = { ...TAKEN, polarity: 'same', bInverted: true };
    expect(outcomeOf(TAKEN, b)).toMatchObject({ before: TAKEN, after: b, done: { inverted: 'b', movedCm: null } });
    const a: Taken = { ...TAKEN, polarity: 'same', aInverted: true };
    expect(outcomeOf(TAKEN, a).done).toMatchObject({ inverted: 'a' });
    const both: Taken = { ...TAKEN, aInverted: true, bInverted: true };
    expect(outcomeOf(TAKEN, both).done).toMatchObject({ inverted: 'both', movedCm: null });
  });

  test('B came 2.5 cm closer; 3 mm are within what nobody can put back', () => {
    const closer = farther(TAKEN, -2.5);
    expect(outcomeOf(TAKEN, closer)).toMatchObject({ after: closer, done: { inverted: null, movedCm: 2.5 } });
    expect(outcomeOf(TAKEN, farther(TAKEN, 0.3)).after).toBeNull();
  });

  test('polarity turned over without a switch is noted as just that', () => {
    const { after, done } = outcomeOf(TAKEN, { ...TAKEN, polarity: 'same' });
    expect(after?.polarity).toBe('same');
    expect(done).toMatchObject({ inverted: null, note: 'polarity turned over, no switch told of' });
  });

  test('a delay for the mix, and what was left on purpose, need no change', () => {
    expect(outcomeOf(TAKEN, TAKEN, { delayLaterMs: -1.2 })).toMatchObject({
      after: null,
      done: { delayLaterMs: -1.2, inverted: null, leftOnPurpose: false },
    });
    expect(outcomeOf(TAKEN, TAKEN, { left: 'wanted thin' }).done).toEqual({
      inverted: null,
      movedCm: null,
      delayLaterMs: null,
      leftOnPurpose: true,
      note: 'wanted thin',
    });
  });

  test('an unsure first reading says nothing of a move', () => {
    const unsure: Taken = { ...TAKEN, sure: false, polarity: null, delayMs: null };
    expect(outcomeOf(unsure, TAKEN)).toEqual({ before: TAKEN, after: null, done: null });
    const switched = { ...TAKEN, bInverted: true };
    expect(outcomeOf(unsure, switched)).toMatchObject({ before: unsure, after: switched, done: { inverted: 'b' } });
  });
});

test('what another temperature explains is no move: the air’s, or a figure that was put right', () => {
  const far = { ...TAKEN, delayMs: 3 };
  // the same delay, the air put right from 20 to 32 °C: 2.1 cm by the figures
  expect(recheck(far, { ...far, temperatureC: 32 }).change).toBe('same');
  // the same place in warmer air: by hand 3 · √(293.15/305.15)
  const warm = { ...far, delayMs: 3 * Math.sqrt(293.15 / 305.15), temperatureC: 32 };
  expect(recheck(far, warm)).toMatchObject({ change: 'same' });
  expect(recheck(far, { ...farther(far, 6), temperatureC: 32 }).change).toBe('moved');
});

test('a second look in words', () => {
  const say = (now: Taken): string => recheckText(recheck(TAKEN, now), 'Snare bottom', '14:10');
  expect(say(farther(TAKEN, 2.4))).toBe('Snare bottom: 2.4 cm farther than at 14:10. Look at both stands.');
  expect(say(farther(TAKEN, -12))).toBe('Snare bottom: 12 cm closer than at 14:10. Look at both stands.');
  expect(say({ ...TAKEN, polarity: 'same' })).toBe(
    'Snare bottom: polarity changed since 14:10. Look at the switch and the cable.',
  );
  expect(say(TAKEN)).toMatch(/^Snare bottom: as at 14:10 \(.* would be seen\)\.$/);
  expect(say({ ...TAKEN, sure: false })).toContain('can’t be compared with 14:10');
});

test('the pairs that a group misses are put on the round once', () => {
  const first = four.pairs[0] as Pair;
  const missing: [string, string][] = [
    [first.b, first.a],
    ['kickOut', 'snareTop'],
  ];
  const more = addMissing(four, first.drum, missing);
  expect(more.pairs).toHaveLength(ids.length + 1);
  expect(more.pairs.at(-1)).toMatchObject({ a: 'kickOut', b: 'snareTop', drum: first.drum, before: null });
  expect(addMissing(more, first.drum, missing)).toEqual(more);
  expect(addPair(four, first.a, first.a, 'other', 'kick')).toBe(four);
  expect(changeMicrophone(four, 'nobody', { label: 'x' })).toEqual(four);
});
