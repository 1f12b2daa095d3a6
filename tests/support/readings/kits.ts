/** Kits with readings put in, for what they say together. */
import { expect } from 'vitest';
import type { Fuller } from '../../../src/reading/codes';
import type { Polarity } from '../../../src/reading/reading';
import type { KitSheet, Pair, Taken } from '../../../src/sheet/document/model';
import { planned, TAKEN, timing, UNPLANNED } from './taken';

/** By 6 dB fuller, both in the drum's low octave and over all, or nothing known of the sum. */
export const taken = (
  polarity: Polarity | null,
  delayMs: number | null,
  fuller: Fuller | null = null,
  more: Partial<Taken> = {},
): Taken => ({
  ...TAKEN,
  polarity,
  delayMs,
  agreement: 1,
  fuller,
  fullerDb: fuller ? 6 : null,
  lowCoherency: null,
  ...(fuller ? planned(timing(fuller === 'as-is' ? 0.6 : -0.6, fuller === 'as-is' ? 0.6 : -0.6)) : UNPLANNED),
  ...more,
});

/** The sheet with readings put in, by pair id. */
export function read(sheet: KitSheet, readings: Record<string, Taken>): KitSheet {
  for (const id of Object.keys(readings)) expect(sheet.pairs.map((pair) => pair.id)).toContain(id);
  return {
    ...sheet,
    pairs: sheet.pairs.map(
      (pair): Pair => ({
        ...pair,
        before: readings[pair.id] ?? null,
        acceptedAt: readings[pair.id] ? '2026-01-02T03:10:00Z' : null,
      }),
    ),
  };
}

export const withPair = (sheet: KitSheet, id: string, change: Partial<Pair>): KitSheet => ({
  ...sheet,
  pairs: sheet.pairs.map((one) => (one.id === id ? { ...one, ...change } : one)),
});

export const inverted = (sheet: KitSheet, ...ids: string[]): KitSheet => ({
  ...sheet,
  microphones: sheet.microphones.map((one) => (ids.includes(one.id) ? { ...one, inverted: !one.inverted } : one)),
});
