/**
 * The sheet as a file: JSON, { format, version, savedAt, kit }. Read only if all of it is as it should be; what is read is
 * a new object of known fields, text stays text. Version 2 added the sum's pictures, coherencies by octave and the second
 * look at a pair, and which of the two was inverted; a file of version 1 is checked as such and brought up.
 */
import * as v from 'valibot';
import { PAIR_KIND_IDS } from '../../advice/plan/pairKinds';
import { LOW_OCTAVES_HZ } from '../../reading/bands';
import { type KitSheet, SUM_PICTURE_HZ } from './model';

export const FILE_FORMAT = 'crosshead-kit-sheet';
export const FILE_VERSION = 2;

/** Longer texts, more microphones or pairs, larger files than these are no sheet of ours. */
export const MOST_FILE_BYTES = 4_000_000;
export const MOST_MICROPHONES = 32;
export const MOST_PAIRS = 500;
/** letters */
export const MOST_LABEL = 80;
export const MOST_NOTE = 2000;

const label = v.pipe(v.string(), v.maxLength(MOST_LABEL));
const note = v.pipe(v.string(), v.maxLength(MOST_NOTE));
const id = v.pipe(v.string(), v.regex(/^[\w-]{1,60}$/, 'must be an id of letters, digits, - and _'));
const time = v.pipe(v.string(), v.isoTimestamp());
const within = (low: number, high: number) => v.pipe(v.number(), v.minValue(low), v.maxValue(high));
const count = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(1e7));
const rate = within(8000, 768_000);
const temperatureC = within(-40, 60);
const delayMs = within(-1000, 1000);

const microphone = v.strictObject({
  id,
  label,
  drum: label,
  side: label,
  note,
  input: label,
  inverted: v.boolean(),
  lowCut: label,
  pad: label,
  voicing: label,
});

const coherency = v.nullable(within(-1, 1));

const TAKEN_1 = {
  takenAt: time,
  take: label,
  initials: label,
  temperatureC,
  sampleRate: rate,
  sure: v.boolean(),
  reason: note,
  polarity: v.nullable(v.picklist(['same', 'inverted'])),
  delayMs: v.nullable(delayMs),
  uncertaintyMs: v.nullable(within(0, 1000)),
  spreadMs: v.nullable(within(0, 1000)),
  hits: count,
  hitsUsed: count,
  agreement: v.nullable(within(0, 1)),
  fuller: v.nullable(v.picklist(['as-is', 'inverted', 'either'])),
  fullerDb: v.nullable(within(-200, 200)),
  fullerLowHz: v.nullable(within(1, 100_000)),
  fullerHighHz: v.nullable(within(1, 100_000)),
  lowCoherency: coherency,
  aInverted: v.boolean(),
  bInverted: v.boolean(),
};
const taken1 = v.strictObject(TAKEN_1);
const taken = v.strictObject({
  ...TAKEN_1,
  octaveCoherency: v.pipe(v.array(coherency), v.length(LOW_OCTAVES_HZ.length)),
  sumDb: v.nullable(v.pipe(v.array(v.nullable(within(-100, 100))), v.length(SUM_PICTURE_HZ.length))),
});

const DONE_1 = {
  movedCm: v.nullable(within(-10_000, 10_000)),
  delayLaterMs: v.nullable(delayMs),
  leftOnPurpose: v.boolean(),
  note,
};
const done1 = v.strictObject({ ...DONE_1, inverted: v.boolean() });
const done = v.strictObject({ ...DONE_1, inverted: v.nullable(v.picklist(['a', 'b', 'both'])) });

const PAIR_1 = {
  id,
  a: id,
  b: id,
  kind: v.picklist(PAIR_KIND_IDS),
  drum: label,
  acceptedAt: v.nullable(time),
};
const pair1 = v.strictObject({
  ...PAIR_1,
  before: v.nullable(taken1),
  after: v.nullable(taken1),
  done: v.nullable(done1),
});
const pair = v.strictObject({
  ...PAIR_1,
  before: v.nullable(taken),
  after: v.nullable(taken),
  done: v.nullable(done),
  checked: v.nullable(
    v.strictObject({
      checkedAt: time,
      change: v.picklist(['same', 'moved', 'polarity', 'unknown']),
      fartherCm: v.nullable(within(-100_000, 100_000)),
    }),
  ),
});

const KIT = {
  id,
  name: label,
  note,
  sampleRate: rate,
  temperatureC,
  microphones: v.pipe(v.array(microphone), v.maxLength(MOST_MICROPHONES)),
  references: v.pipe(v.array(v.strictObject({ drum: label, microphone: id })), v.maxLength(MOST_PAIRS)),
  follows: v.pipe(v.array(v.strictObject({ microphone: id, drum: label })), v.maxLength(MOST_MICROPHONES)),
};
const kit1 = v.strictObject({ ...KIT, pairs: v.pipe(v.array(pair1), v.maxLength(MOST_PAIRS)) });
const kit = v.strictObject({ ...KIT, pairs: v.pipe(v.array(pair), v.maxLength(MOST_PAIRS)) });

/** What version 1 didn't keep isn't known. */
function fromVersion1(old: v.InferOutput<typeof kit1>): KitSheet {
  const known = (one: v.InferOutput<typeof taken1> | null): v.InferOutput<typeof taken> | null =>
    one && { ...one, octaveCoherency: LOW_OCTAVES_HZ.map(() => null), sumDb: null };
  const pairs = old.pairs.map((one) => ({
    ...one,
    before: known(one.before),
    after: known(one.after),
    done: one.done && { ...one.done, inverted: one.done.inverted ? ('b' as const) : null },
    checked: null,
  }));
  return { ...old, pairs };
}

/** @param savedAt ISO 8601, UTC */
export function writeSheet(sheet: KitSheet, savedAt: string): string {
  return `${JSON.stringify({ format: FILE_FORMAT, version: FILE_VERSION, savedAt, kit: sheet }, null, 1)}\n`;
}

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
      problem:
        'This file is damaged or isn’t a kit sheet: it can’t be read to the end. Export it again, or choose another.',
    };
  }
  const head = v.safeParse(
    v.object({ format: v.literal(FILE_FORMAT), version: v.pipe(v.number(), v.integer(), v.minValue(1)) }),
    raw,
  );
  if (!head.success) return { problem: 'This file isn’t a kit sheet; choose one that was exported here.' };
  if (head.output.version > FILE_VERSION)
    return {
      problem: `This kit sheet is from a newer version of this program (${head.output.version}, here ${FILE_VERSION}); open it there, or load the newer page.`,
    };
  const read = kitOf(head.output.version, (raw as { kit?: unknown }).kit);
  const problem = 'problem' in read ? read.problem : notTogether(read.sheet);
  return problem ? { problem } : read;
}

function kitOf(version: number, raw: unknown): SheetRead {
  const { microphones } = (raw ?? {}) as { microphones?: unknown };
  if (Array.isArray(microphones) && microphones.length > MOST_MICROPHONES)
    return {
      problem: `This kit sheet has ${microphones.length} microphones, and at most ${MOST_MICROPHONES} can be kept; take some off it and open it again.`,
    };
  if (version === 1) {
    const old = v.safeParse(kit1, raw);
    return old.success ? { sheet: fromVersion1(old.output) } : { problem: wrongAt(v.getDotPath(old.issues[0])) };
  }
  const parsed = v.safeParse(kit, raw);
  return parsed.success ? { sheet: parsed.output } : { problem: wrongAt(v.getDotPath(parsed.issues[0])) };
}

const wrongAt = (path: string | null): string =>
  `This kit sheet has an error at “${path ?? 'its beginning'}”, so nothing was opened. Export it again, or choose another.`;

/** What each field can't say by itself: ids are there, and once. */
function notTogether({ microphones, pairs, references, follows }: KitSheet): string | null {
  const ids = new Set(microphones.map((one) => one.id));
  if (ids.size < microphones.length || new Set(pairs.map((one) => one.id)).size < pairs.length)
    return 'This kit sheet has the same id twice, so nothing was opened. Export it again, or choose another.';
  const lost =
    pairs.some(({ a, b }) => !ids.has(a) || !ids.has(b) || a === b) ||
    [...references, ...follows].some(({ microphone }) => !ids.has(microphone));
  if (lost)
    return 'This kit sheet names a microphone that isn’t on it, so nothing was opened. Export it again, or choose another.';
  if (
    new Set(references.map((one) => one.drum)).size < references.length ||
    new Set(follows.map((one) => one.microphone)).size < follows.length
  )
    return 'This kit sheet contradicts itself about a drum or a microphone, so nothing was opened. Export it again, or choose another.';
  return null;
}
