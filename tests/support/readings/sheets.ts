import { expect } from 'vitest';
import type { Done, KitSheet, Pair } from '../../../src/sheet/document/model';
import { STARTS, sheetFrom } from '../../../src/sheet/document/starts';

/** A usual kit's sheet, by the id of its starting point. */
export const start = (id: string): KitSheet =>
  sheetFrom(STARTS.find((one) => one.id === id) as (typeof STARTS)[number], 'kit', 'Quay');

/** The sheet with pairs changed, by id. */
export function withPairs(sheet: KitSheet, changes: Record<string, Partial<Pair>>): KitSheet {
  for (const id of Object.keys(changes)) expect(sheet.pairs.map((pair) => pair.id)).toContain(id);
  return {
    ...sheet,
    pairs: sheet.pairs.map(
      (pair): Pair => ({
        ...pair,
        ...(changes[pair.id] ? { acceptedAt: '2026-01-02T03:10:00Z' } : {}),
        ...changes[pair.id],
      }),
    ),
  };
}

export const DONE: Done = { inverted: null, movedCm: null, later: null, leftOnPurpose: false, note: '' };
