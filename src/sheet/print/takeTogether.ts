/**
 * What a take's readings say together, by the sheet's own rules (kitSystem): the switches and delays that the whole kit gets, and whether
 * the readings of each drum can all be true. So the take's page, the command, the table of offsets and a sheet made of it say one thing.
 */
import { listText } from '../../text/sentence';
import { plainLine, type SumLine } from '../../text/sum';
import type { KitSheet } from '../document/model';
import type { DrumSystem } from '../kit/drumSystem';
import { type KitSystem, kitSystem } from '../kit/kitSystem';
import type { AcceptWith } from '../tracks/acceptTake';
import { acceptTake } from '../tracks/acceptTake';
import { soundPairs } from '../tracks/holding';
import { matchTracks } from '../tracks/sheetMics';
import type { SheetTake } from '../tracks/sheetTake';
import { onSheet } from '../tracks/takeSheet';
import { allTogether, allTogetherLines } from './allTogether';
import { doubtLines, doubtsOf } from './handOverDoubts';
import { groupLines, inTheMix } from './handOverMix';

/** Two tracks, by file. */
type Ends = [string, string];

/** Whether the readings of one drum can all be true. */
export interface Closure {
  drum: string;
  /** pairs that were read */
  pairs: number;
  /** three pairs whose delays don't add up within their 90 %, the worst first */
  open: { pairs: Ends[]; errorMs: number; uncertaintyMs: number }[];
  /** pairs whose polarities can't all be right; empty: they can */
  contradiction: Ends[];
  /** most likely wrong, in this order */
  suspects: Ends[];
}

export interface TakeTogether {
  /** which switches to press, each track by file */
  polarities: { file: string; invert: boolean }[];
  /** tracks that are delayed in the mix */
  delays: { file: string; delayMs: number }[];
  closure: Closure[];
  /** what to do, and what it comes to; one sentence each */
  sentences: string[];
  /** what to watch out for */
  doubts: string[];
}

/** The sheet with a take's readings and no others. */
export interface ReadSheet {
  sheet: KitSheet;
  system: KitSystem;
  /** id of the mic by file */
  mics: ReadonlyMap<string, string>;
  /** drums of the take that nothing is put on it of: no mic of their own can be compared */
  left: string[];
}

/** @param given its names, switches, references and choices count, its readings don't */
export function sheetOfReadings(given: KitSheet, take: SheetTake, how: AcceptWith): ReadSheet {
  const mics = matchTracks(take.tracks, given.microphones);
  const pairs = given.pairs.map((pair) => ({
    ...pair,
    before: null,
    after: null,
    done: null,
    acceptedAt: null,
    checked: null,
  }));
  const bare = { ...given, pairs, sampleRate: take.sampleRate, temperatureC: how.temperatureC };
  const sound = soundPairs(take);
  const { sheet } = acceptTake(bare, onSheet(bare, take, mics), sound, how);
  const left = take.drums.flatMap(({ drum }) => (sound.some((pair) => pair.drum === drum) ? [] : [drum]));
  return { sheet, system: kitSystem(sheet), mics, left };
}

/** @param files of all tracks, in their order */
export function takeTogether({ sheet, system, mics, left }: ReadSheet, files: readonly string[]): TakeTogether {
  const { choice, drums } = system;
  const fileOf = new Map([...mics].map(([file, id]) => [id, file]));
  const called = (id: string): string => fileOf.get(id) ?? '';
  const heard = sheet.pairs.some(({ acceptedAt }) => acceptedAt !== null);
  return {
    polarities: files.map((file) => ({ file, invert: choice.invert.includes(mics.get(file) ?? '') })),
    delays: choice.delays.map(({ microphone, delayMs }) => ({ file: called(microphone), delayMs })),
    closure: drums.map((drum) => closureOf(sheet, drum, called)),
    sentences: heard
      ? [
          ...allTogether(heardOf(sheet), choice),
          ...inTheMix(sheet, system).groups,
          ...(left.length > 0
            ? [`Not counted, because their own mic can’t be compared or there is none: ${listText(left)}.`]
            : []),
        ]
      : [],
    doubts: doubtsOf(sheet, drums),
  };
}

// pairs that weren't read are the table's business
const heardOf = (sheet: KitSheet): KitSheet => ({
  ...sheet,
  pairs: sheet.pairs.filter(({ before }) => before !== null),
});

/** What they say together, with the names of its numbers. */
export function togetherLines(
  { sheet, system }: ReadSheet,
  { sentences, doubts }: TakeTogether,
): { sentences: SumLine[]; doubts: SumLine[] } {
  const named = [
    ...allTogetherLines(heardOf(sheet), system.choice),
    ...groupLines(system),
    ...doubtLines(sheet, system.drums),
  ];
  const line = (text: string): SumLine => named.find((one) => one.text === text) ?? plainLine(text);
  return { sentences: sentences.map(line), doubts: doubts.map(line) };
}

function closureOf(sheet: KitSheet, system: DrumSystem, called: (id: string) => string): Closure {
  const endsOf = (id: string): Ends => {
    const pair = sheet.pairs.find((one) => one.id === id);
    return [called(pair?.a ?? ''), called(pair?.b ?? '')];
  };
  const { drum, open, contradiction, suspects } = system;
  return {
    drum,
    pairs: sheet.pairs.filter((pair) => pair.drum === drum && pair.acceptedAt !== null).length,
    open: open.map(({ pairs, errorMs, uncertaintyMs }) => ({ pairs: pairs.map(endsOf), errorMs, uncertaintyMs })),
    contradiction: contradiction.map(endsOf),
    suspects: suspects.map(endsOf),
  };
}
