/**
 * The sheet as a file: JSON, { format, version, savedAt, kit }. Read only if all of it is as it should be; what is read is
 * a new object of known fields, text stays text. A file of an earlier version is checked as such and brought up: version 2
 * added the sum's pictures, coherencies by octave and the second look at a pair, and which of the two was inverted; version 3
 * what A+B comes to by each alternative, and the plan whole; version 4 what it comes to with any delay near the arrival; version 5 the places on the drawing; version 6 the tracks of a take;
 * version 7 the two paths of a recheck, and what a reading was read from.
 */
import * as v from 'valibot';
import { pairName } from '../../text/names';
import { contradictionIn } from './contradictions';
import { MOST_FILE_BYTES, MOST_MICROPHONES } from './fileLimits';
import { kit1, kit2, kit3, kit4, kit5, kit6, kit7 } from './fileSchemas';
import { fromVersion1, fromVersion2, fromVersion3, fromVersion4 } from './fileSteps';
import type { KitSheet } from './model';

export * from './fileLimits';

export const FILE_FORMAT = 'crosshead-kit-sheet';
export const FILE_VERSION = 7;

/** @param savedAt ISO 8601, UTC */
export function writeSheet(sheet: KitSheet, savedAt: string): string {
  const text = JSON.stringify({ format: FILE_FORMAT, version: FILE_VERSION, savedAt, kit: sheet }, null, 1);
  return `${text.replace(FIGURES, (list) => list.replace(/\s+/g, ''))}\n`;
}

/** A list of figures goes on one line. Within a text of the sheet there is no line's end: it is written as \\n. */
const FIGURES = /\[\n\s*(?:(?:-?\d[\d.e+-]*|null),?\n\s*)+\]/g;

export type SheetRead = { sheet: KitSheet } | { problem: string };

/**
 * Never throws: what can't be read is said in one sentence, and what to do next.
 * @param own it was kept by this program itself: nobody is kept from a sheet of his own by what it says
 */
export function readSheet(text: string, own = false): SheetRead {
  if (text.length > MOST_FILE_BYTES)
    return { problem: 'This file is far larger than a kit sheet can be; choose the file that was exported here.' };
  let raw: unknown;
  try {
    raw = JSON.parse(text);
  } catch {
    return {
      problem: 'This file is damaged, or it isn’t a kit sheet. Export it again, or choose another.',
    };
  }
  const head = v.safeParse(
    v.object({ format: v.literal(FILE_FORMAT), version: v.pipe(v.number(), v.integer(), v.minValue(1)) }),
    raw,
  );
  if (!head.success) return { problem: 'This file isn’t a kit sheet; choose one that was exported here.' };
  if (head.output.version > FILE_VERSION)
    return {
      problem: `This kit sheet was made with a newer version of this program (${head.output.version}; this is ${FILE_VERSION}). Reload this page to update it, or open the sheet in the newer one.`,
    };
  const read = kitOf(head.output.version, (raw as { kit?: unknown }).kit);
  if ('problem' in read || own) return read;
  const problem = contradictionIn(read.sheet);
  return problem === null ? read : { problem };
}

function kitOf(version: number, raw: unknown): SheetRead {
  const { microphones } = (raw ?? {}) as { microphones?: unknown };
  if (Array.isArray(microphones) && microphones.length > MOST_MICROPHONES)
    return {
      problem: `This kit sheet has ${microphones.length} mics; the limit is ${MOST_MICROPHONES}. Split it into two sheets where it was made, then export them again.`,
    };
  switch (version) {
    case 1:
      return readAs(kit1, raw, (old) => fromVersion4(fromVersion3(fromVersion2(fromVersion1(old)))));
    case 2:
      return readAs(kit2, raw, (old) => fromVersion4(fromVersion3(fromVersion2(old))));
    case 3:
      return readAs(kit3, raw, (old) => fromVersion4(fromVersion3(old)));
    case 4:
      return readAs(kit4, raw, fromVersion4);
    case 5:
      // nobody had read a take yet
      return readAs(kit5, raw, (sheet) => sheet);
    case 6:
      // what a recheck compared wasn't kept
      return readAs(kit6, raw, (sheet) => sheet);
    default:
      return readAs(kit7, raw, (sheet) => sheet);
  }
}

function readAs<
  S extends typeof kit1 | typeof kit2 | typeof kit3 | typeof kit4 | typeof kit5 | typeof kit6 | typeof kit7,
>(schema: S, raw: unknown, up: (kit: v.InferOutput<S>) => KitSheet): SheetRead {
  const parsed = v.safeParse(schema, raw);
  return parsed.success ? { sheet: up(parsed.output) } : { problem: wrongAt(parsed.issues[0], raw) };
}

/** letters of a name within a sentence */
const NAME_LETTERS = 24;

/** Where, whose, and what is out of bounds: "at “pairs.0.before.uncertaintyMs”, Kick in & Kick out: -1, and 0 is the least" */
function wrongAt(issue: v.BaseIssue<unknown>, raw: unknown): string {
  const path = v.getDotPath(issue);
  const whose = whoseIs(path, raw);
  const { type, input, requirement } = issue as { type: string; input: unknown; requirement?: unknown };
  const bound = { min_value: 'the least', max_value: 'the most', gt_value: 'too little' }[type];
  const why =
    bound !== undefined && typeof input === 'number'
      ? `: ${Number(input.toPrecision(6))}, and ${requirement} is ${bound}`
      : '';
  return `This kit sheet is damaged (at “${path ?? 'the beginning'}”${whose}${why}), so nothing was opened. Export it again, or choose another.`;
}

/** ", Kick in & Kick out", of a sheet of which nothing is known; empty: it isn't about a pair or a microphone. */
function whoseIs(path: string | null, raw: unknown): string {
  const [list, place] = path?.split('.') ?? [];
  const kit = raw as { microphones?: { id?: unknown; label?: unknown }[]; pairs?: { a?: unknown; b?: unknown }[] };
  const all = Array.isArray(kit?.microphones) ? kit.microphones : [];
  const label = (one: { label?: unknown } | undefined): string =>
    typeof one?.label === 'string' ? one.label.slice(0, NAME_LETTERS) : '';
  if (list === 'microphones') return label(all[Number(place)]) && `, ${label(all[Number(place)])}`;
  const pair = list === 'pairs' && Array.isArray(kit?.pairs) ? kit.pairs[Number(place)] : undefined;
  const [a, b] = [pair?.a, pair?.b].map((id) => label(all.find((one) => one?.id === id)));
  return a || b ? `, ${pairName(a, b)}` : '';
}
