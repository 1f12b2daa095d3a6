/** Levels as text, and by how much a sum is fuller. */
import type { Fuller } from '../reading/codes';
import { atMost, fixed, NO_VALUE, orNoValue } from './number';

/** from here on half decibels are no longer said */
const WHOLE_FROM_DB = 10;

/** "3.5 dB": the size, to half a dB, whole from 10 dB. */
export function dbText(db: number): string {
  const size = Math.abs(db);
  return `${size < WHOLE_FROM_DB ? atMost(Math.round(size * 2) / 2, 1) : atMost(size, 0)} dB`;
}

/** "+8 dB", "−0.5 dB", "±0 dB": what a change gains, to half a dB. */
export const gainText = (db: number): string => `${gainFigure(db)} dB`;

/** The same where the head tells the unit: "+8", "−0.5", "±0". */
export function gainFigure(db: number): string {
  const size = dbText(db).replace(' dB', '');
  return size === '0' ? '±0' : `${db > 0 ? '+' : '−'}${size}`;
}

/** "−3.1 dB" */
export function dbFigure(db: number): string {
  return `${fixed(db, 1)} dB`;
}

/** "−14 dB": whole, halves upwards. */
export function wholeDbText(db: number): string {
  return `${fixed(Math.round(db), 0)} dB`;
}

/** "−12.3 dBFS" */
export function dbfsFigure(dbfs: number | null): string {
  return orNoValue(dbfs, (level) => `${fixed(level, 1)} dBFS`);
}

/** Which polarity of B sums to more, told from what the meter shows now: its own invert is part of that. */
export function fullerFigure(fuller: Fuller | null, byDb: number | null, invertB: boolean): string {
  if (fuller === null) return NO_VALUE;
  if (fuller === 'either') return 'no difference (under 1 dB)';
  const asShown = invertB ? 'with “Invert B here” on' : 'as it is';
  const turned = invertB ? 'with “Invert B here” off' : 'with B inverted';
  return `${fuller === 'as-is' ? asShown : turned}, by ${dbText(byDb ?? 0)}`;
}
