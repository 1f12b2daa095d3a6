import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  addMicrophone,
  addMissing,
  addPair,
  changeMicrophone,
  changePair,
  moveMicrophone,
  movePair,
  removeMicrophone,
  removePair,
  setFollows,
  setReference,
} from '../../../src/sheet/document/edits';
import { readSheet, writeSheet } from '../../../src/sheet/document/file';
import type { KitSheet, Pair, Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { did, historyOf, MOST_STEPS, redone, undone } from '../../../src/sheet/document/undo';
import { recheck } from '../../../src/sheet/pair/recheck';
import { TAKEN } from '../../support/readings/taken';

const eight = sheetFrom(STARTS[3] as (typeof STARTS)[number], 'kit', 'Quay');
/** Any one change, by numbers that pick what it is about. */
const edit = fc
  .tuple(fc.nat(9), fc.nat(), fc.nat(), fc.integer({ min: -3, max: 3 }), fc.string({ maxLength: 8 }))
  .map(([what, p, q, by, text]) => (sheet: KitSheet): KitSheet => {
    const microphone = sheet.microphones[p % Math.max(1, sheet.microphones.length)]?.id ?? 'nobody';
    const other = sheet.microphones[q % Math.max(1, sheet.microphones.length)]?.id ?? 'nobody';
    const pair = sheet.pairs[p % Math.max(1, sheet.pairs.length)]?.id ?? 'none';
    const drum = sheet.pairs[q % Math.max(1, sheet.pairs.length)]?.drum ?? 'kick';
    switch (what) {
      case 0:
        return addMicrophone(sheet, text, drum);
      case 1:
        return changeMicrophone(sheet, microphone, { label: text, inverted: by > 0 });
      case 2:
        return removeMicrophone(sheet, microphone);
      case 3:
        return moveMicrophone(sheet, microphone, by);
      case 4:
        return addPair(sheet, microphone, other, 'other', text);
      case 5:
        return changePair(sheet, pair, { b: other, before: TAKEN });
      case 6:
        return removePair(sheet, pair);
      case 7:
        return movePair(sheet, pair, by);
      case 8:
        return sheet.pairs.length > 0 && microphone !== 'nobody' ? setReference(sheet, drum, microphone) : sheet;
      default:
        return microphone !== 'nobody' ? setFollows(sheet, microphone, by > 0 ? drum : null) : sheet;
    }
  });

describe('changes', () => {
  test('whatever is done to a sheet, it stays one that can be saved and opened, and every step can be undone and redone', () => {
    fc.assert(
      fc.property(fc.array(edit, { maxLength: 30 }), (edits) => {
        const before = structuredClone(eight);
        let history = historyOf(eight);
        for (const change of edits) {
          history = did(history, change(history.present));
          expect(readSheet(writeSheet(history.present, '2026-01-02T03:04:05Z'))).toEqual({ sheet: history.present });
        }
        const end = history.present;
        const steps = history.past.length;
        for (let i = 0; i < steps; i++) history = undone(history);
        expect(history.present).toEqual(before);
        expect(undone(history)).toBe(history);
        for (let i = 0; i < steps; i++) history = redone(history);
        expect(history.present).toEqual(end);
        expect(redone(history)).toBe(history);
      }),
    );
  });

  test('a new step forgets what was undone; no more than so many are kept', () => {
    let history = historyOf(0);
    for (let i = 1; i <= MOST_STEPS + 50; i++) history = did(history, i);
    expect(history.past).toHaveLength(MOST_STEPS);
    history = did(undone(history), -1);
    expect(history.future).toEqual([]);
    expect(did(history, -1)).toEqual(history);
  });

  test('a microphone takes its pairs along; the drum’s delays get another reference', () => {
    const without = removeMicrophone(eight, 'snareTop');
    expect(without.pairs.some(({ a, b }) => a === 'snareTop' || b === 'snareTop')).toBe(false);
    expect(without.references.find(({ drum }) => drum === 'snare')?.microphone).toBe('overheadLeft');
    expect(eight.pairs.some(({ a }) => a === 'snareTop')).toBe(true);
  });

  test('a pair of other microphones, or on another drum, loses its readings; one of another kind keeps them', () => {
    const [pair] = eight.pairs;
    const id = pair?.id as string;
    const read = changePair(eight, id, { before: TAKEN, acceptedAt: TAKEN.takenAt });
    const of = (sheet: KitSheet) => sheet.pairs.find((one) => one.id === id);
    expect(of(changePair(read, id, { kind: 'other' }))?.before).toEqual(TAKEN);
    expect(of(changePair(read, id, { drum: 'snare' }))).toMatchObject({ before: null, acceptedAt: null });
    expect(of(changePair(read, id, { b: pair?.a as string }))).toEqual(of(read));
  });

  test('order: up and down by places, at most to the ends', () => {
    const order = (sheet: KitSheet): string[] => sheet.microphones.map(({ id }) => id);
    const [first, second, third] = order(eight);
    expect(order(moveMicrophone(eight, first as string, 1)).slice(0, 3)).toEqual([second, first, third]);
    expect(order(moveMicrophone(eight, third as string, -9))[0]).toBe(third);
    expect(order(moveMicrophone(eight, first as string, 99)).at(-1)).toBe(first);
  });
});

describe('again, after a break or a knock', () => {
  test('the same within the scatter of the hits is the same', () => {
    expect(recheck(TAKEN, { ...TAKEN, delayMs: 0.105 }).change).toBe('same');
  });

  test('further by 2.4 cm, by the speed of sound at 20 °C (343.2 m/s, ISO 9613-1:1993)', () => {
    const { change, fartherCm } = recheck(TAKEN, { ...TAKEN, delayMs: 0.1 + 0.07 });
    expect(change).toBe('moved');
    expect(fartherCm).toBeCloseTo(0.07e-3 * 34_320, 1);
    expect(recheck(TAKEN, { ...TAKEN, delayMs: 0.03 }).fartherCm).toBeLessThan(0);
  });

  test('a warmer room isn’t a move: the path is compared, not the time', () => {
    const far = { ...TAKEN, delayMs: 3 };
    // 331.3·√(1 + T/273.15), general reference
    const warm = { ...far, temperatureC: 30, delayMs: 3 * Math.sqrt(293.15 / 303.15) };
    expect(recheck(far, warm)).toMatchObject({ change: 'same' });
    expect(Math.abs(recheck(far, warm).fartherCm as number)).toBeLessThan(0.1);
  });

  test('another polarity is named, unless a switch explains it', () => {
    const other: Taken = { ...TAKEN, polarity: 'same' };
    expect(recheck(TAKEN, other).change).toBe('polarity');
    expect(recheck(TAKEN, { ...other, bInverted: true }).change).toBe('same');
    expect(recheck(TAKEN, { ...TAKEN, bInverted: true }).change).toBe('polarity');
    expect(recheck(TAKEN, { ...TAKEN, aInverted: true, bInverted: true }).change).toBe('same');
  });

  test('an unsure reading tells nothing', () => {
    expect(recheck(TAKEN, { ...TAKEN, sure: false, delayMs: 9 })).toEqual({
      change: 'unknown',
      fartherCm: null,
      pathsCm: null,
      seenFromCm: null,
    });
  });
});

test('the pairs that a group misses are put on the round once', () => {
  const four = sheetFrom(STARTS[2] as (typeof STARTS)[number], 'kit', 'Quay');
  const first = four.pairs[0] as Pair;
  const missing: [string, string][] = [
    [first.b, first.a],
    ['kickOut', 'snareTop'],
  ];
  const more = addMissing(four, first.drum, missing);
  expect(more.pairs).toHaveLength(four.pairs.length + 1);
  expect(more.pairs.at(-1)).toMatchObject({ a: 'kickOut', b: 'snareTop', drum: first.drum, before: null });
  expect(addMissing(more, first.drum, missing)).toEqual(more);
  expect(addPair(four, first.a, first.a, 'other', 'kick')).toBe(four);
  expect(changeMicrophone(four, 'nobody', { label: 'x' })).toEqual(four);
});
