/**
 * A table as comma-separated values, as RFC 4180 has them (quoted where needed, lines end with CR LF). Numbers are numbers; text that a
 * spreadsheet could run is made text (spreadsheetText.ts).
 */
import { notRun, quoted } from './spreadsheetText';

/** A sentence of our own: what persons wrote in it is made text already. */
export interface Sentence {
  own: string;
}
export type Value = string | number | boolean | null | Sentence;

/** @returns the table in UTF-8 with a byte order mark, which spreadsheets ask for */
export const csvOf = (rows: readonly (readonly Value[])[]): string =>
  `\uFEFF${rows.map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`;

export const rounded = (value: number, places: number): number => Number(value.toFixed(places));

function cell(value: Value): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  return quoted(typeof value === 'string' ? notRun(value) : value.own);
}
