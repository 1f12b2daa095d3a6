/**
 * The sheet for a spreadsheet: comma-separated values as RFC 4180 has them (quoted where needed, lines end with CR LF),
 * one table, a row for each pair. Text that a spreadsheet would take for a formula gets an apostrophe before it.
 */
import { kindWords } from '../../advice/words/pairKindWords';
import { whichText } from '../../text/names';
import { type KitSheet, lastTaken, type Microphone, microphoneOf, type Pair } from '../document/model';

const COLUMNS = [
  'drum',
  'pair kind',
  'A',
  'A input',
  'A polarity switch',
  'B',
  'B input',
  'B polarity switch',
  'read at',
  'initials',
  'temperature °C',
  'sure',
  'polarity',
  'delay of B ms',
  'delay of B samples',
  'uncertainty ms (90 %)',
  'repeats within ms',
  'hits used',
  'hits',
  'agreement',
  'fuller',
  'by dB',
  'low band Hz',
  'polarity before',
  'delay of B before ms',
  'inverted then',
  'B moved towards the drum cm',
  'delay later ms (B positive, A negative)',
  'left on purpose',
  'note',
  'accepted at',
  'looked at again',
  'what was found',
  'B farther by then cm',
] as const;

/** @returns the table with its head, in UTF-8 with a byte order mark, which spreadsheets ask for */
export function sheetCsv(sheet: KitSheet): string {
  const rows = [COLUMNS, ...sheet.pairs.map((pair) => rowOf(sheet, pair))];
  return `\uFEFF${rows.map((row) => row.map(cell).join(',')).join('\r\n')}\r\n`;
}

type Value = string | number | boolean | null;

function rowOf(sheet: KitSheet, pair: Pair): Value[] {
  const a = microphoneOf(sheet, pair.a);
  const b = microphoneOf(sheet, pair.b);
  const taken = lastTaken(pair);
  const { done } = pair;
  const ms = (value: number | null | undefined): number | null => (value == null ? null : rounded(value, 4));
  return [
    pair.drum,
    kindWords(pair.kind).title,
    ...microphone(a),
    ...microphone(b),
    taken?.takenAt ?? null,
    taken?.initials ?? null,
    taken?.temperatureC ?? null,
    taken ? taken.sure : null,
    taken?.polarity ?? null,
    ms(taken?.delayMs),
    taken?.delayMs == null ? null : rounded((taken.delayMs / 1000) * sheet.sampleRate, 1),
    ms(taken?.uncertaintyMs),
    ms(taken?.spreadMs),
    taken?.hitsUsed ?? null,
    taken?.hits ?? null,
    taken?.agreement == null ? null : rounded(taken.agreement, 2),
    taken?.fuller ?? null,
    taken?.fullerDb == null ? null : rounded(taken.fullerDb, 1),
    taken?.fullerLowHz == null || taken.fullerHighHz === null
      ? null
      : `${Math.round(taken.fullerLowHz)}–${Math.round(taken.fullerHighHz)}`,
    pair.after ? (pair.before?.polarity ?? null) : null,
    pair.after ? ms(pair.before?.delayMs) : null,
    done?.inverted ? whichText(done.inverted) : null,
    done?.movedCm ?? null,
    ms(done?.delayLaterMs),
    done ? done.leftOnPurpose : null,
    done?.note ?? null,
    pair.acceptedAt,
    pair.checked?.checkedAt ?? null,
    pair.checked?.change ?? null,
    pair.checked?.fartherCm == null ? null : rounded(pair.checked.fartherCm, 1),
  ];
}

const microphone = (one: Microphone | undefined): Value[] =>
  one ? [one.label, one.input, one.inverted ? 'inverted' : 'normal'] : [null, null, null];

const rounded = (value: number, places: number): number => Number(value.toFixed(places));

function cell(value: Value): string {
  if (value === null) return '';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  if (typeof value === 'number') return String(value);
  const text = /^[=+\-@\t\r]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
