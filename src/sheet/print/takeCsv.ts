/**
 * A take's offsets and inverts as a table: a row a track, from the readings of that take alone. What to delay and to invert is what the
 * whole kit gets by the sheet's own rule (kitChoice); beside it where each drum arrives, as its readings together say.
 */
import { pathCm } from '../../reading/acoustics';
import { sheetDrumName } from '../../text/names';
import { listText } from '../../text/sentence';
import { fixedMs } from '../../text/time';
import {
  countedTaken,
  type KitSheet,
  knownUncertaintyMs,
  type Microphone,
  microphoneOf,
  type Pair,
} from '../document/model';
import type { DrumSystem } from '../kit/drumSystem';
import type { KitChoice } from '../kit/kitChoice';
import { csvOf, rounded, type Value } from './csvCells';
import { isAssumed } from './handOver';
import { printedName } from './printedNames';
import { notRun } from './spreadsheetText';
import type { ReadSheet } from './takeTogether';

const COLUMNS = [
  'file',
  'mic',
  'delay to add samples',
  'delay to add ms',
  'delay to add cm',
  'accuracy ± ms (90 %)',
  'lines up with',
  'invert',
  'from drums',
  'to mind',
] as const;

/** A track as the report tells it. */
export interface CsvTrack {
  file: string;
  /** what is wrong with it; empty: nothing */
  reason: string;
}

/** @returns the table with its head, a row for each of the tracks */
export function takeCsv({ sheet: read, system, mics }: ReadSheet, tracks: readonly CsvTrack[]): string {
  const { drums, choice } = system;
  const held = drums.filter(({ delays }) => delays.filter(({ delayMs }) => delayMs !== null).length > 1);
  const arrivals = held.flatMap(({ drum, reference }) => {
    const against = reference === null ? '' : ` after ${printedName(read, reference)}`;
    return [`${sheetDrumName(drum)}: arrives${against} ms`, `${sheetDrumName(drum)}: ± ms (90 %)`];
  });
  const rows = tracks.map((track) => rowOf(read, choice, held, track, mics.get(track.file)));
  return csvOf([[...COLUMNS, ...arrivals], ...rows]);
}

function rowOf(
  sheet: KitSheet,
  choice: KitChoice,
  drums: readonly DrumSystem[],
  { file, reason }: CsvTrack,
  mic: string | undefined,
): Value[] {
  const one = mic === undefined ? undefined : microphoneOf(sheet, mic);
  if (!one) return [file, null, ...none(7), reason || 'no mic of the kit sheet', ...none(2 * drums.length)];
  const of = readPairs(sheet, one);
  const arrivals = drums.flatMap((drum): Value[] => {
    const found = drum.delays.find(({ microphone }) => microphone === one.id);
    if (found?.delayMs == null) return [null, null];
    const unknown = found.uncertaintyMs === null || isAssumed(sheet, drum);
    return [rounded(found.delayMs, 3), unknown ? null : rounded(found.uncertaintyMs as number, 3)];
  });
  const told = of.length === 0 ? none(6) : inTheMix(sheet, choice, one, of);
  const from = of.length === 0 ? null : listText([...new Set(of.map(({ drum }) => sheetDrumName(drum)))]);
  const mind = [
    ...(reason === '' ? [] : [notRun(reason)]),
    ...(of.length === 0 ? ['no certain reading of it'] : []),
    ...(one.inverted ? ['recorded inverted'] : []),
    ...doubts(sheet, drums, one),
  ];
  return [file, one.label, ...told, from, { own: mind.join('; ') }, ...arrivals];
}

const none = (n: number): null[] => Array.from({ length: n }, () => null);

/** Accepted pairs that it is of. */
const readPairs = ({ pairs }: KitSheet, { id }: Microphone): Pair[] =>
  pairs.filter((pair) => (pair.a === id || pair.b === id) && countedTaken(pair)?.sure === true);

/** Delay in samples, ms and cm of sound's way; how well it is known; whom it meets; whether it is inverted. */
function inTheMix(sheet: KitSheet, choice: KitChoice, { id }: Microphone, of: readonly Pair[]): Value[] {
  const delay = choice.delays.find(({ microphone }) => microphone === id);
  const delayMs = delay?.delayMs ?? 0;
  const met = of.filter((pair) => delay?.pairs.includes(pair.id));
  const known = met.map((pair) => {
    const taken = countedTaken(pair);
    return taken && knownUncertaintyMs(taken);
  });
  const vague = met.length === 0 || known.some((ms) => ms === null);
  const whom = met.map((pair) => {
    const other = printedName(sheet, pair.a === id ? pair.b : pair.a);
    return `${notRun(other)} on the ${notRun(sheetDrumName(pair.drum))}`;
  });
  const along = delayMs > 0 && met.length === 0;
  return [
    Math.round((delayMs / 1000) * sheet.sampleRate),
    rounded(delayMs, 3),
    rounded(pathCm(delayMs / 1000, sheet.temperatureC), 1),
    vague ? null : rounded(Math.max(...(known as number[])), 3),
    { own: along ? 'goes along with the others' : listText([...new Set(whom)]) },
    choice.invert.includes(id),
  ];
}

/** Where the readings of a drum contradict each other, and this mic is part of it. */
function doubts(sheet: KitSheet, drums: readonly DrumSystem[], { id }: Microphone): string[] {
  const isOf = (pair: string): boolean => sheet.pairs.some((one) => one.id === pair && (one.a === id || one.b === id));
  const other = (pair: string): string => {
    const { a, b } = sheet.pairs.find((one) => one.id === pair) as Pair;
    return notRun(printedName(sheet, a === id ? b : a));
  };
  return drums.flatMap(({ drum, contradiction, open, suspects }) => {
    const name = notRun(sheetDrumName(drum));
    const worst = open.find(({ pairs }) => pairs.some(isOf));
    const wrong = suspects.filter(isOf).map(other);
    return [
      ...(contradiction.some(isOf) ? [`${name}: its polarities can’t all be right`] : []),
      ...(worst ? [`${name}: delays don’t add up, off by ${fixedMs(Math.abs(worst.errorMs), 2)}`] : []),
      ...(wrong.length > 0 ? [`${name}: most likely wrong with ${listText(wrong)}`] : []),
    ];
  });
}
