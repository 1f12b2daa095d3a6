/** The hand-over's rows of pairs, what to mind about them, and the pictures of sums that changed. */

import { pairKind } from '../../advice/plan/kinds';
import { sumDbFromCoherency } from '../../reading/acoustics';
import { minuteText } from '../../text/clock';
import { bandText, hzText } from '../../text/frequency';
import { dbText, wholeDbText } from '../../text/level';
import { sheetDrumName } from '../../text/names';
import { capital, listText } from '../../text/sentence';
import { fixedMs } from '../../text/time';
import { type KitSheet, knownUncertaintyMs, lastTaken, type Pair, SUM_PICTURE_HZ, type Taken } from '../document/model';
import type { DrumSystem } from '../kit/drumSystem';
import { isSameBand } from '../pair/lowBand';
import { recheck } from '../pair/recheck';
import {
  changesText,
  checkedText,
  doneText,
  fullerText,
  nameOf,
  notReadSince,
  pairName,
  pathText,
  polarityText,
} from './handOverWords';

/** A pair that was read; every field is text to print. */
export interface PairRow {
  id: string;
  a: string;
  b: string;
  drum: string;
  kind: string;
  /** and whether the reading is sure: "inverted, sure", "not sure: reason" */
  polarity: string;
  /** B's; "–" where the reading isn't sure */
  path: string;
  sure: boolean;
  fuller: string;
  /** used of those heard */
  hits: string;
  /** what was done, and the second look since */
  done: string;
  /** when the reading that counts was taken, UTC; without its day where all times of the sheet are of one day */
  readAt: string;
  accepted: 'yes' | 'unsure' | 'no';
}

/** A+B before and after what was done, dB re one microphone alone, at SUM_PICTURE_HZ. */
export interface SumPicture {
  pair: string;
  title: string;
  before: readonly (number | null)[];
  after: readonly (number | null)[];
  /** what was done, and what the two lines show */
  text: string[];
}

export function pairRows(sheet: KitSheet): PairRow[] {
  const time = timesOf(sheet);
  return sheet.pairs.flatMap((pair) => {
    const taken = lastTaken(pair);
    return taken ? [pairRow(sheet, pair, taken, time)] : [];
  });
}

/** A session is mostly of one day, which the head of the sheet tells: then the time of day is enough. */
function timesOf({ pairs }: KitSheet): (iso: string) => string {
  const all = pairs.flatMap(({ before, after, checked }) => [before?.takenAt, after?.takenAt, checked?.checkedAt]);
  const days = new Set(all.flatMap((iso) => (iso === undefined ? [] : [minuteText(iso).slice(0, 10)])));
  return (iso) => (days.size > 1 ? minuteText(iso) : minuteText(iso).slice(11));
}

function pairRow(sheet: KitSheet, pair: Pair, taken: Taken, time: (iso: string) => string): PairRow {
  const checked = pair.checked ? `checked ${time(pair.checked.checkedAt)}: ${checkedText(pair)}` : '';
  const since = notReadSince(pair) ? 'not read again since' : '';
  const done = [doneText(pair.done), since, checked].filter((text) => text !== '');
  return {
    id: pair.id,
    a: nameOf(sheet, pair.a),
    b: nameOf(sheet, pair.b),
    drum: sheetDrumName(pair.drum),
    kind: pairKind(pair.kind).title,
    polarity: polarityText(sheet, pair, taken),
    path: pathText(taken),
    fuller: fullerText(sheet, pair, taken),
    hits: `${taken.hitsUsed}/${taken.hits}`,
    sure: taken.sure,
    done: done.join('; '),
    readAt: time(taken.takenAt),
    accepted: pair.acceptedAt === null ? 'no' : taken.sure ? 'yes' : 'unsure',
  };
}

/** Of many pairs on one drum the worst are enough: one wrong reading opens every triangle that it is in. */
const MOST_OPEN = 4;
const MOST_SUSPECTS = 3;

/** One sentence each: readings that can't all be true, don't close, are from before a change, or didn't hold. */
export function doubtsOf(sheet: KitSheet, drums: readonly DrumSystem[]): string[] {
  const of = (id: string): Pair => sheet.pairs.find((one) => one.id === id) as Pair;
  const names = (ids: readonly string[]): string => listText(ids.map((id) => pairName(sheet, of(id))));
  const sentences = drums.flatMap(({ drum, contradiction, suspects, open }) => {
    const start = `${capital(sheetDrumName(drum))}: `;
    const said = [];
    if (contradiction.length > 0) said.push(`${start}the polarities of ${names(contradiction)} can’t all be true.`);
    for (const { pairs, errorMs } of open.slice(0, MOST_OPEN)) {
      const vague = pairs.some((id) => knownUncertaintyMs(lastTaken(of(id)) as Taken) === null);
      const left = `${fixedMs(Math.abs(errorMs), 2)} left`;
      // without an accuracy of its own a reading counts as an assumed one
      const how = vague ? `don’t close: ${left}, one of them with ± not known` : `don’t close within their ±: ${left}`;
      said.push(`${start}the delays of ${names(pairs)} ${how}.`);
    }
    if (open.length > MOST_OPEN)
      said.push(`${start}other threes whose delays don’t close: ${open.length - MOST_OPEN}.`);
    if (suspects.length > 0) {
      const more = suspects.length > MOST_SUSPECTS ? `; ${suspects.length - MOST_SUSPECTS} more` : '';
      said.push(`${start}may be wrong, the likeliest first: ${names(suspects.slice(0, MOST_SUSPECTS))}${more}.`);
    }
    return said;
  });
  for (const pair of sheet.pairs) {
    if (notReadSince(pair) && pair.done)
      sentences.push(`${pairName(sheet, pair)}: not read again since this was done: ${changesText(pair.done)}.`);
    const change = pair.checked?.change;
    if (change === 'moved' || change === 'polarity')
      sentences.push(`${pairName(sheet, pair)}: at the second look ${checkedText(pair)}.`);
  }
  return sentences;
}

/** Pairs whose sum was drawn before and after, and that changed in between. */
export function sumPictures(sheet: KitSheet): SumPicture[] {
  return sheet.pairs.flatMap((pair) => {
    const { before, after } = pair;
    if (!before?.sumDb || !after?.sumDb || !changed(pair, before, after)) return [];
    return [
      {
        pair: pair.id,
        title: `${pairName(sheet, pair)} (${sheetDrumName(pair.drum)})`,
        before: before.sumDb,
        after: after.sumDb,
        text: pictureText(pair, before, after),
      },
    ];
  });
}

function changed({ done }: Pair, before: Taken, after: Taken): boolean {
  const switched = (before.aInverted !== after.aInverted) !== (before.bInverted !== after.bInverted);
  const turned = before.sure && after.sure && before.polarity !== after.polarity;
  // delays scatter from reading to reading: only what a second look would call a move is one
  return switched || turned || Boolean(done?.movedCm) || recheck(before, after).change === 'moved';
}

function pictureText({ done }: Pair, before: Taken, after: Taken): string[] {
  const text = [];
  const changes = done ? changesText(done) : '';
  if (changes) text.push(`${changes}.`);
  if (before.aInverted !== after.aInverted && !done?.inverted) text.push('A’s polarity switch turned.');
  if (before.bInverted !== after.bInverted && !done?.inverted) text.push('B’s polarity switch turned.');
  const band = bandChange(before, after);
  if (band) text.push(band);
  const [then, now] = [deepest(before), deepest(after)];
  if (then && now) text.push(`Lowest ${then}, then ${now}.`);
  if (!before.sure && !after.sure) text.push('Neither reading was sure.');
  else if (!before.sure) text.push('The one before wasn’t sure.');
  else if (!after.sure) text.push('The one after wasn’t sure.');
  return text;
}

/** How A+B changed in the drum's own low band: by the same coherencies as what is fuller, so that no two figures stand for one thing. */
function bandChange(before: Taken, after: Taken): string | null {
  const { fullerLowHz: low, fullerHighHz: high } = after;
  if (low === null || high === null || before.fullerLowHz === null) return null;
  if (!isSameBand(before.fullerLowHz, low) || before.lowCoherency === null || after.lowCoherency === null) return null;
  const step = sumDbFromCoherency(after.lowCoherency) - sumDbFromCoherency(before.lowCoherency);
  const where = `${bandText(low, high)}: `;
  if (Math.abs(step) < 0.5) return `${where}as strong as before.`;
  return `${where}${dbText(step)} ${step > 0 ? 'stronger' : 'weaker'}.`;
}

/** "−14 dB at 200 Hz" */
function deepest({ sumDb }: Taken): string | null {
  let at = -1;
  for (const [i, db] of (sumDb ?? []).entries()) if (db !== null && (at < 0 || db < (sumDb?.[at] as number))) at = i;
  if (at < 0) return null;
  return `${wholeDbText(sumDb?.[at] as number)} at ${hzText(Number((SUM_PICTURE_HZ[at] as number).toPrecision(2)))}`;
}
