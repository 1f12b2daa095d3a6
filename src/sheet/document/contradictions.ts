/**
 * What a sheet from a file says that can't be true together, each field being as it should. Only what this program can never
 * have written: a sheet of its own must always open. The sentence names the place, and the reason.
 */
import type { Timing } from '../../advice/plan/alternatives';
import { POWER_SUM_DB } from '../../reading/acoustics';
import { NEAR_POINTS } from '../../reading/bands';
import { cmText } from '../../text/length';
import { microphoneName, pairName, sheetDrumName } from '../../text/names';
import { type KitSheet, type Microphone, microphoneOf, type Pair, type Taken } from './model';

/** A clock may be set right in the middle of a session: earlier by more than this is another day's, ms */
const CLOCK_MS = 10 * 60_000;
/** A+B of two alike is 3.01 dB over their power sum, and a picture's 6.02 dB over one alone; told to 0.1 dB. */
const MOST_SUM_DB = POWER_SUM_DB + 0.01;
const MOST_PICTURE_DB = 2 * POWER_SUM_DB + 0.05;
/** no reading is certain by fewer hits */
const LEAST_HITS = 2;
/** path that a second look may still call the same, cm: three times the scatter of the most scattered reading, and some more */
const MOST_SAME_CM = 100;
/** letters of a name within a sentence */
const NAME_LETTERS = 24;

/** @returns one sentence; null: none is seen */
export function contradictionIn(sheet: KitSheet): string | null {
  const found = idTwice(sheet) ?? lostIn(sheet) ?? twiceSaid(sheet);
  if (found !== null) return found;
  for (const pair of sheet.pairs) {
    const wrong = ofPair(pair);
    if (wrong !== null) return refused(`${called(sheet, pair)}${wrong.startsWith(',') ? '' : ':'}${wrong}`);
  }
  return null;
}

/** "This kit sheet contradicts itself, so nothing was opened: Snare top & Snare bottom (snare), before: …" */
const refused = (what: string): string =>
  `This kit sheet contradicts itself, so nothing was opened: ${what}. Export it again, or choose another.`;

const short = (name: string): string => (name.length > NAME_LETTERS ? `${name.slice(0, NAME_LETTERS - 1)}…` : name);
const nameOf = (one: Microphone | undefined): string => short(microphoneName(one?.label));
const called = (sheet: KitSheet, { a, b, drum }: Pair): string =>
  `${pairName(nameOf(microphoneOf(sheet, a)), nameOf(microphoneOf(sheet, b)))} (${short(sheetDrumName(drum))})`;

function idTwice({ microphones, pairs }: KitSheet): string | null {
  const twice = <T extends { id: string }>(list: readonly T[]): T | undefined => {
    const seen = new Set<string>();
    return list.find(({ id }) => seen.size === seen.add(id).size);
  };
  const microphone = twice(microphones);
  if (microphone) return refused(`${nameOf(microphone)} has the id of another mic`);
  return twice(pairs) ? refused(`two pairs have one id, “${short(twice(pairs)?.id ?? '')}”`) : null;
}

function lostIn(sheet: KitSheet): string | null {
  const there = new Set(sheet.microphones.map(({ id }) => id));
  const lost = 'a mic that isn’t on the sheet';
  for (const pair of sheet.pairs) {
    if (pair.a === pair.b) return refused(`${nameOf(microphoneOf(sheet, pair.a))} is paired with itself`);
    if (!there.has(pair.a) || !there.has(pair.b)) return refused(`${called(sheet, pair)} has ${lost}`);
  }
  const reference = sheet.references.find(({ microphone }) => !there.has(microphone));
  if (reference) return refused(`the delays of the ${short(sheetDrumName(reference.drum))} are told against ${lost}`);
  const follower = sheet.follows.find(({ microphone }) => !there.has(microphone));
  return follower ? refused(`the ${short(sheetDrumName(follower.drum))} decides about ${lost}`) : null;
}

function twiceSaid({ references, follows, drumPlaces, ...sheet }: KitSheet): string | null {
  const placed = drumPlaces.map((one) => one.drum);
  const put = placed.find((one, i) => placed.indexOf(one) < i);
  if (put !== undefined) return refused(`the ${short(sheetDrumName(put))} is in two places on the drawing`);
  const drums = references.map(({ drum }) => drum);
  const drum = drums.find((one, i) => drums.indexOf(one) < i);
  if (drum !== undefined)
    return refused(`the delays of the ${short(sheetDrumName(drum))} are told against two mics at once`);
  const ids = follows.map(({ microphone }) => microphone);
  const id = ids.find((one, i) => ids.indexOf(one) < i);
  if (id === undefined) return null;
  return refused(`two drums decide about ${nameOf(sheet.microphones.find((one) => one.id === id))}`);
}

/** What follows the pair's name: ", before: 50 of 1 hits used", " accepted without a reading" */
function ofPair({ before, after, done, acceptedAt, checked }: Pair): string | null {
  if (before === null && after !== null) return ' a reading after, and none before';
  if (before === null && acceptedAt !== null) return ' accepted without a reading';
  if (before === null && done !== null) return ' something done, and no reading';
  if (acceptedAt === null && checked !== null) return ' rechecked, and never accepted';
  for (const [when, taken] of [
    ['before', before],
    ['after', after],
  ] as const) {
    const wrong = taken && ofTaken(taken);
    if (wrong) return `, ${when}: ${wrong}`;
  }
  if (checked?.change === 'moved' && checked.fartherCm === null) return ' rechecked: moved, and not by how much';
  if (checked?.change === 'same' && Math.abs(checked.fartherCm ?? 0) > MOST_SAME_CM)
    return ` rechecked: the same, and ${cmText(checked.fartherCm ?? 0)} apart`;
  const last = after ?? before;
  if (before && after && isEarlier(after.takenAt, before.takenAt))
    return ' the reading after is older than the one before';
  if (last && acceptedAt !== null && isEarlier(acceptedAt, last.takenAt)) return ' accepted before it was measured';
  if (checked && acceptedAt !== null && isEarlier(checked.checkedAt, acceptedAt))
    return ' rechecked before it was accepted';
  return null;
}

const isEarlier = (one: string, other: string): boolean => Date.parse(one) < Date.parse(other) - CLOCK_MS;

function ofTaken(taken: Taken): string | null {
  const { hits, hitsUsed, sure, polarity, delayMs, fullerLowHz, fullerHighHz, sumByDelay, sumDb } = taken;
  if (hitsUsed > hits) return `${hitsUsed} of ${hits} hits used`;
  if (sure && hitsUsed === 0) return 'certain without a hit';
  if (sure && hitsUsed < LEAST_HITS) return `certain by ${hitsUsed} hit`;
  if (sure && polarity === null) return 'certain, and no polarity';
  if (sure && delayMs === null) return 'certain, and no delay';
  if (fullerLowHz !== null && fullerHighHz !== null && fullerLowHz >= fullerHighHz)
    return 'the drum’s low octave ends below where it begins';
  if (taken.timings.some(isTooLoud)) return 'A+B more than 3 dB over the two mics’ power sum';
  if (sumDb?.some((db) => db !== null && db > MOST_PICTURE_DB)) return 'A+B more than 6 dB over one mic alone';
  if (sumByDelay && sure && delayMs !== null) {
    const { fromMs, stepMs } = sumByDelay;
    const wide = (NEAR_POINTS - 1) * stepMs;
    // it is told round the arrival, which may have moved a little since
    if (delayMs < fromMs - wide || delayMs > fromMs + 2 * wide) return 'its sums are of other delays than its own';
  }
  return null;
}

const isTooLoud = ({ asIs, inverted }: Timing): boolean =>
  [asIs, inverted].some(({ lowDb, allDb, bandsDb }) =>
    [lowDb, allDb, ...bandsDb].some((db) => db !== null && db > MOST_SUM_DB),
  );
