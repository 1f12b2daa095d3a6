import { describe, expect, test } from 'vitest';
import type { KitSheet, Pair, Taken } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { nextToCheck, progressOf, proposed } from '../../../src/sheet/kit/roundRules';
import { TAKEN } from '../../support/readings/taken';

const four = sheetFrom(STARTS[2] as (typeof STARTS)[number], 'kit', 'Quay');
const ids = four.pairs.map(({ id }) => id);
const accepted = (sheet: KitSheet, ...done: string[]): KitSheet => ({
  ...sheet,
  pairs: sheet.pairs.map((pair): Pair => (done.includes(pair.id) ? { ...pair, before: TAKEN, acceptedAt: 'x' } : pair)),
});
const next = (sheet: KitSheet, drum: string | null = null, later: string[] = []) =>
  proposed(sheet, kitSystem(sheet), drum, new Set(later));

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
