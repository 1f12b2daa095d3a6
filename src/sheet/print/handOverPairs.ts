/** The hand-over's rows of pairs: what was read, what was done, what is left to do. Never finer than what is known. */
import { pathCm } from '../../reading/acoustics';
import { minuteText } from '../../text/clock';
import { cmNumber, cmText, spanText } from '../../text/length';
import { sheetDrumName } from '../../text/names';
import { NO_VALUE } from '../../text/number';
import { type KitSheet, knownUncertaintyMs, lastTaken, type Pair, type Taken } from '../document/model';
import type { KitChoice } from '../kit/kitChoice';
import { polarityNow } from '../pair/asItStands';
import { agreeingHits, pathSaidOf } from '../pair/taken';
import { checkedText, doneAndLeft } from './handOverChanges';
import { printedName } from './printedNames';

/** A pair that was read; every field is text to print. */
export interface PairRow {
  id: string;
  a: string;
  b: string;
  drum: string;
  /** and whether the reading is sure: "inverted, certain", "uncertain: reason" */
  polarity: string;
  /** B's; "–" where the reading isn't sure */
  path: string;
  sure: boolean;
  /** "8/9": those that agree of those in the running; "–/9" where the reading isn't sure */
  hits: string;
  /** what was done, what is left to do in the mix and what it gains, the second look since */
  line: string;
  /** when the reading that counts was taken, local time; without its day where all times of the sheet are of one day */
  readAt: string;
  accepted: 'yes' | 'uncertain' | 'no';
}

/** @param choice what the pairs get in the whole kit; null: it wasn't worked out */
export function pairRows(sheet: KitSheet, choice: KitChoice | null): PairRow[] {
  const time = timesOf(sheet);
  return sheet.pairs.flatMap((pair) => {
    const taken = lastTaken(pair);
    return taken ? [pairRow(sheet, choice, pair, taken, time)] : [];
  });
}

/** A session is mostly of one day, which the head of the sheet tells: then the time of day is enough. */
function timesOf({ pairs }: KitSheet): (iso: string) => string {
  const all = pairs.flatMap(({ before, after, checked }) => [before?.takenAt, after?.takenAt, checked?.checkedAt]);
  const days = new Set(all.flatMap((iso) => (iso === undefined ? [] : [minuteText(iso).slice(0, 10)])));
  return (iso) => (days.size > 1 ? minuteText(iso) : minuteText(iso).slice(11));
}

function pairRow(
  sheet: KitSheet,
  choice: KitChoice | null,
  pair: Pair,
  taken: Taken,
  time: (iso: string) => string,
): PairRow {
  return {
    id: pair.id,
    a: printedName(sheet, pair.a),
    b: printedName(sheet, pair.b),
    drum: sheetDrumName(pair.drum),
    polarity: polarityCell(sheet, pair, taken),
    path: pathCell(taken),
    hits: hitsCell(taken),
    sure: taken.sure,
    line: lineOf(sheet, choice, pair, taken, time),
    readAt: time(taken.takenAt),
    accepted: pair.acceptedAt === null ? 'no' : taken.sure ? 'yes' : 'uncertain',
  };
}

function hitsCell(taken: Taken): string {
  const { agree, of } = agreeingHits(taken);
  return taken.sure ? `${agree}/${of}` : `–/${taken.hits}`;
}

/** What was done, what is left to do, the second look; of which tracks it was read. */
function lineOf(
  sheet: KitSheet,
  choice: KitChoice | null,
  pair: Pair,
  { files }: Taken,
  time: (iso: string) => string,
): string {
  const from = files ? [`Read from the tracks ${files.join(' and ')}`] : [];
  const checked = pair.checked ? [`Recheck ${time(pair.checked.checkedAt)}: ${checkedText(pair)}`] : [];
  return `${[...doneAndLeft(sheet, choice, pair), ...checked, ...from].join('. ')}.`;
}

/** "3.5 cm ±7 mm further", "104 ±2.7 cm further": B's, in the air of the reading. */
function pathCell(taken: Taken): string {
  const path = pathSaidOf(taken);
  if (!taken.sure || path === null) return NO_VALUE;
  const cm = (ms: number): number => pathCm(ms / 1000, taken.temperatureC);
  const known = knownUncertaintyMs(taken);
  const accuracy = known === null ? ', ± unknown' : ` ±${spanText(cm(known))}`;
  if (path === 0) return `same distance as A${accuracy}`;
  const where = path > 0 ? 'further' : 'closer';
  return known === null ? `${cmText(path)} ${where}${accuracy}` : `${withUnit(cmNumber(path), accuracy)} ${where}`;
}

/** "104 ±2.7 cm": a unit that both have is said once. */
const withUnit = (cm: string, accuracy: string): string => `${cm}${accuracy.endsWith(' cm') ? '' : ' cm'}${accuracy}`;

/** "inverted, certain"; "inverted, certain; now same" where the switches stand otherwise now; "uncertain: reason". */
function polarityCell(sheet: KitSheet, pair: Pair, taken: Taken): string {
  const { sure, reason, polarity } = taken;
  if (!sure) return reason.trim() ? `uncertain: ${reason.trim()}` : 'uncertain';
  if (polarity === null) return NO_VALUE;
  const now = polarityNow(sheet, pair, taken);
  return now === polarity ? `${polarity}, certain` : `${polarity}, certain; now ${now}`;
}
