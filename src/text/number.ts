/**
 * Numbers as text: a real minus sign, never "−0", an en dash where there is no value.
 *
 * In this folder a name tells where its text stands: …Text in a sentence, rounded as it deserves; …Figure in a table or
 * beside a plot, finer; …Spoken over talkback, the unit in words; …Column in a column whose head tells the unit.
 */

export const NO_VALUE = '–';
const MINUS = '−';

/** "3.10": so many decimals. */
export function fixed(value: number, decimals: number): string {
  const text = Math.abs(value).toFixed(decimals);
  return value < 0 && Number(text) !== 0 ? MINUS + text : text;
}

/** "+3.10", "0.00": the same with a plus sign where it is positive. */
export function signed(value: number, decimals: number): string {
  const text = fixed(value, decimals);
  return value > 0 && Number(text) !== 0 ? `+${text}` : text;
}

/** "+0.00": with a sign even where it is next to nothing, so that figures stand below each other in plain text. */
export function signedColumn(value: number, decimals: number): string {
  return `${value < 0 ? MINUS : '+'}${Math.abs(value).toFixed(decimals)}`;
}

/** "3", "3.5": at most so many decimals. */
export function atMost(value: number, decimals: number): string {
  const text = String(Number(Math.abs(value).toFixed(decimals)));
  return value < 0 && text !== '0' ? MINUS + text : text;
}

/** What `show` makes of it, or the sign for no value. */
export function orNoValue(value: number | null, show: (value: number) => string): string {
  return value === null ? NO_VALUE : show(value);
}

/** "64 %" @param share 0…1 */
export function percentText(share: number): string {
  return `${fixed(share * 100, 0)} %`;
}

/** A number for a data attribute: machine-readable, empty when there is none. */
export function dataNumber(value: number | null | undefined, decimals = 4): string {
  return value === null || value === undefined || !Number.isFinite(value) ? '' : value.toFixed(decimals);
}
