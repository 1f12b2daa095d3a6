/**
 * The sheet as a file: JSON, { format, version, savedAt, kit }. Read only if all of it is as it should be; what is read is
 * a new object of known fields, text stays text. A file of an earlier version is checked as such and brought up: version 2
 * added the sum's pictures, coherencies by octave and the second look at a pair, and which of the two was inverted; version 3
 * what A+B comes to by each alternative, and the plan whole; version 4 what it comes to with any delay near the arrival.
 */
import * as v from 'valibot';
import { MOST_FILE_BYTES, MOST_MICROPHONES } from './fileLimits';
import { kit1, kit2, kit3, kit4 } from './fileSchemas';
import { fromVersion1, fromVersion2, fromVersion3 } from './fileSteps';
import type { KitSheet } from './model';

export * from './fileLimits';

export const FILE_FORMAT = 'crosshead-kit-sheet';
export const FILE_VERSION = 4;

/** @param savedAt ISO 8601, UTC */
export function writeSheet(sheet: KitSheet, savedAt: string): string {
  const text = JSON.stringify({ format: FILE_FORMAT, version: FILE_VERSION, savedAt, kit: sheet }, null, 1);
  return `${text.replace(FIGURES, (list) => list.replace(/\s+/g, ''))}\n`;
}

/** A list of figures goes on one line. Within a text of the sheet there is no line's end: it is written as \\n. */
const FIGURES = /\[\n\s*(?:(?:-?\d[\d.e+-]*|null),?\n\s*)+\]/g;

export type SheetRead = { sheet: KitSheet } | { problem: string };

/** Never throws: what can't be read is said in one sentence, and what to do next. */
export function readSheet(text: string): SheetRead {
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
  const problem = 'problem' in read ? read.problem : notTogether(read.sheet);
  return problem ? { problem } : read;
}

function kitOf(version: number, raw: unknown): SheetRead {
  const { microphones } = (raw ?? {}) as { microphones?: unknown };
  if (Array.isArray(microphones) && microphones.length > MOST_MICROPHONES)
    return {
      problem: `This kit sheet has ${microphones.length} mics; the limit is ${MOST_MICROPHONES}. Split it into two sheets where it was made, then export them again.`,
    };
  switch (version) {
    case 1:
      return readAs(kit1, raw, (old) => fromVersion3(fromVersion2(fromVersion1(old))));
    case 2:
      return readAs(kit2, raw, (old) => fromVersion3(fromVersion2(old)));
    case 3:
      return readAs(kit3, raw, fromVersion3);
    default:
      return readAs(kit4, raw, (sheet) => sheet);
  }
}

function readAs<S extends typeof kit1 | typeof kit2 | typeof kit3 | typeof kit4>(
  schema: S,
  raw: unknown,
  up: (kit: v.InferOutput<S>) => KitSheet,
): SheetRead {
  const parsed = v.safeParse(schema, raw);
  return parsed.success ? { sheet: up(parsed.output) } : { problem: wrongAt(v.getDotPath(parsed.issues[0])) };
}

const wrongAt = (path: string | null): string =>
  `This kit sheet is damaged (at “${path ?? 'the beginning'}”), so nothing was opened. Export it again, or choose another.`;

/** What each field can't say by itself: ids are there, and once. */
function notTogether({ microphones, pairs, references, follows }: KitSheet): string | null {
  const ids = new Set(microphones.map((one) => one.id));
  if (ids.size < microphones.length || new Set(pairs.map((one) => one.id)).size < pairs.length)
    return 'This kit sheet is damaged (it has one id twice), so nothing was opened. Export it again, or choose another.';
  const lost =
    pairs.some(({ a, b }) => !ids.has(a) || !ids.has(b) || a === b) ||
    [...references, ...follows].some(({ microphone }) => !ids.has(microphone));
  if (lost)
    return 'This kit sheet is damaged (it names a mic that isn’t on it), so nothing was opened. Export it again, or choose another.';
  if (
    new Set(references.map((one) => one.drum)).size < references.length ||
    new Set(follows.map((one) => one.microphone)).size < follows.length
  )
    return 'This kit sheet is damaged (it contradicts itself about a drum or a mic), so nothing was opened. Export it again, or choose another.';
  return null;
}
