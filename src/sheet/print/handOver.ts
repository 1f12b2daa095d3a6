/**
 * What the mix engineer gets: everything the printed sheet says, as short texts. Said is only what was read or written down;
 * a reading that isn't sure is called so.
 */

import { spanOfTime } from '../../text/clock';
import { counted, samplesColumn } from '../../text/count';
import { rateText } from '../../text/frequency';
import { kitName, sheetDrumName } from '../../text/names';
import { atMost, NO_VALUE } from '../../text/number';
import { capital, listText } from '../../text/sentence';
import { accuracyMsColumn, msColumn } from '../../text/time';
import {
  type KitSheet,
  knownUncertaintyMs,
  lastTaken,
  type Microphone,
  type Pair,
  type Taken,
} from '../document/model';
import type { DrumSystem } from '../kit/drumSystem';
import { kitSystem } from '../kit/kitSystem';
import { progressOf } from '../kit/roundRules';
import { doubtsOf } from './handOverDoubts';
import { type InTheMix, inTheMix } from './handOverMix';
import { type PairRow, pairRows } from './handOverPairs';
import { type SumPicture, sumPictures } from './handOverPictures';
import { printedName } from './printedNames';

export interface HandOverHead {
  name: string;
  note: string;
  rate: string;
  temperature: string;
  /** first and last reading, in local time with its zone */
  read: string;
  initials: string;
  accepted: string;
}

export interface DelayText {
  drum: string;
  /** "reference", "–" or "+0.10 (+5) ±0.02": ms, samples at the sheet's rate, 90 % in ms */
  text: string;
}

/** Every field is text to print; "–" where there is none. */
export interface MicrophoneRow {
  id: string;
  input: string;
  label: string;
  place: string;
  polaritySwitch: 'normal' | 'inverted';
  lowCut: string;
  pad: string;
  contour: string;
  note: string;
  delays: DelayText[];
}

export interface HandOver {
  head: HandOverHead;
  microphones: MicrophoneRow[];
  inTheMix: InTheMix;
  pairs: PairRow[];
  /** pairs that were never read, in one sentence; null: all were */
  notRead: string | null;
  doubts: string[];
  pictures: SumPicture[];
  cautions: readonly string[];
}

/** What every gain is told against, in every table. */
export const SUM_REFERENCE = 'dB against leaving the pair as it is, A and B at equal level';

const CAUTIONS: readonly string[] = [
  'Relative polarity only: a pair with both inverted measures the same as a pair with neither.',
  'Inputs aren’t calibrated: nothing here is dB SPL.',
  'A delay is right only for its own drum, and for the spot where the stick landed. Positive: heard later.',
  'The ± is this program’s own estimate, for 90 %.',
  `Gains are of A+B, in ${SUM_REFERENCE}.`,
  'Wear hearing protection near drums. Ask the drummer to stop before you reach in.',
  'House rules, local codes and the qualified people on site come first.',
];

export function handOver(sheet: KitSheet): HandOver {
  const system = kitSystem(sheet);
  const { drums } = system;
  return {
    head: headOf(sheet),
    microphones: sheet.microphones.map((one) => microphoneRow(sheet, one, drums)),
    inTheMix: inTheMix(sheet, system),
    pairs: pairRows(sheet, system.choice),
    notRead: notReadText(sheet),
    doubts: doubtsOf(sheet, drums),
    pictures: sumPictures(sheet),
    cautions: CAUTIONS,
  };
}

function headOf(sheet: KitSheet): HandOverHead {
  const all = sheet.pairs.flatMap(({ before, after }) => [before, after]).filter((one): one is Taken => one !== null);
  const times = all.map(({ takenAt }) => takenAt).sort((p, q) => Date.parse(p) - Date.parse(q));
  const [first, last] = [times[0], times.at(-1)];
  const initials = [...new Set(all.map((one) => one.initials.trim()).filter((text) => text !== ''))];
  const { accepted, unsure } = progressOf(sheet);
  return {
    name: sheet.name.trim() || capital(kitName('')),
    note: sheet.note.trim(),
    rate: ratesText(sheet, all),
    temperature: temperatureText(sheet, all),
    read: first === undefined || last === undefined ? 'nothing measured yet' : spanOfTime(first, last),
    initials: initials.length > 0 ? initials.join(', ') : NO_VALUE,
    accepted: `${accepted} of ${counted(sheet.pairs.length, 'pair')} accepted${unsure > 0 ? `, ${unsure} as uncertain` : ''}`,
  };
}

/** The session's, by which samples are told; and the readings' own where they were taken at another. */
function ratesText({ sampleRate }: KitSheet, all: readonly Taken[]): string {
  const own = [...new Set(all.map((one) => one.sampleRate))].sort((p, q) => p - q);
  if (own.every((rate) => rate === sampleRate)) return rateText(sampleRate);
  return `${rateText(sampleRate)}, measured at ${listText(own.map(rateText))}`;
}

/** The sheet's, and the readings' own where they were taken in other air. */
function temperatureText({ temperatureC }: KitSheet, all: readonly Taken[]): string {
  const degrees = (value: number): string => atMost(value, 1);
  const own = all.map((one) => one.temperatureC);
  const text = `${degrees(temperatureC)} °C`;
  if (own.every((value) => value === temperatureC)) return text;
  const [low, high] = [Math.min(...own), Math.max(...own)];
  return `${text}, readings at ${low === high ? degrees(low) : `${degrees(low)} to ${degrees(high)}`} °C`;
}

function microphoneRow(sheet: KitSheet, one: Microphone, drums: readonly DrumSystem[]): MicrophoneRow {
  const or = (text: string): string => text.trim() || NO_VALUE;
  const place = [one.drum.trim() || 'whole kit', one.side.trim()].filter((text) => text !== '').join(', ');
  return {
    id: one.id,
    input: or(one.input),
    label: printedName(sheet, one.id),
    place,
    polaritySwitch: one.inverted ? 'inverted' : 'normal',
    lowCut: or(one.lowCut),
    pad: or(one.pad),
    contour: or(one.contour),
    note: or(one.note),
    delays: drums.flatMap((drum) => {
      const found = drum.delays.find(({ microphone }) => microphone === one.id);
      return found ? [{ drum: sheetDrumName(drum.drum), text: delayText(sheet, drum, found) }] : [];
    }),
  };
}

/** A reading of the drum that says nothing of its accuracy counts as an assumed one beneath: no figure of that may be told. */
export const isAssumed = (sheet: KitSheet, { drum }: DrumSystem): boolean =>
  sheet.pairs.some((pair) => {
    const taken = lastTaken(pair);
    return pair.drum === drum && taken?.sure && taken.delayMs !== null && knownUncertaintyMs(taken) === null;
  });

function delayText(sheet: KitSheet, drum: DrumSystem, found: DrumSystem['delays'][number]): string {
  if (found.microphone === drum.reference) return 'reference';
  if (found.delayMs === null) return NO_VALUE;
  const accuracy =
    isAssumed(sheet, drum) || found.uncertaintyMs === null ? '± unknown' : accuracyMsColumn(found.uncertaintyMs);
  return `${msColumn(found.delayMs)} (${samplesColumn(found.delayMs, sheet.sampleRate)}) ${accuracy}`;
}

function notReadText(sheet: KitSheet): string | null {
  const left = sheet.pairs.filter((pair) => lastTaken(pair) === null);
  if (left.length === 0) return null;
  if (left.length === sheet.pairs.length) return 'No pair was measured.';
  // what one mic is paired with on one drum is one item
  const by = new Map<string, Pair[]>();
  for (const pair of left) {
    const key = JSON.stringify([pair.a, pair.drum]);
    by.set(key, [...(by.get(key) ?? []), pair]);
  }
  const items = [...by.values()].map((pairs) => {
    const { a, drum } = pairs[0] as Pair;
    return `${printedName(sheet, a)} → ${listText(pairs.map(({ b }) => printedName(sheet, b)))} (${sheetDrumName(drum)})`;
  });
  return `Not measured: ${items.join('; ')}.`;
}
