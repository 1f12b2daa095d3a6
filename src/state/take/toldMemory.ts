/** What a person said of tracks, remembered by their files' names: the next take of the same session has the same names. */
import { type MicGuess, PLACE_WORDS } from '../../advice/names/guessPair';
import { LEFT_OUT, type Told, type ToldMic } from '../../take/told/told';
import type { Keeper } from '../settings/keeper';

const KEY = 'takeMics';
/** names; those that were said last stay */
const MOST = 300;
/** letters of a drum's or a mic's name that was stored */
const MOST_LETTERS = 100;

export interface ToldMemory {
  recall(): Told;
  /** null: its name says it again */
  remember(file: string, mic: ToldMic | null): void;
}

type Entry = [file: string, mic: ToldMic];

const isText = (x: unknown): x is string => typeof x === 'string' && x.length <= MOST_LETTERS;

function isMic(x: unknown): x is MicGuess {
  if (typeof x !== 'object' || x === null) return false;
  const { drum, place, side, number, label } = x as Record<string, unknown>;
  const known = place === null || (typeof place === 'string' && Object.keys(PLACE_WORDS).includes(place));
  return known && [drum, number, label].every(isText) && ['left', 'right', ''].includes(side as string);
}

function isEntry(x: unknown): x is Entry {
  return Array.isArray(x) && x.length === 2 && typeof x[0] === 'string' && (x[1] === LEFT_OUT || isMic(x[1]));
}

export function createToldMemory(keeper: Keeper): ToldMemory {
  // where storage is refused, this is all there is
  let entries: Entry[] = stored(keeper);
  return {
    recall: () => new Map(entries),
    remember(file, mic) {
      const others = entries.filter(([name]) => name !== file);
      entries = (mic === null ? others : [...others, [file, mic] satisfies Entry]).slice(-MOST);
      keeper.set(KEY, JSON.stringify(entries));
    },
  };
}

function stored(keeper: Keeper): Entry[] {
  try {
    const list: unknown = JSON.parse(keeper.get(KEY) ?? '[]');
    return Array.isArray(list) ? list.filter(isEntry) : [];
  } catch {
    return [];
  }
}
