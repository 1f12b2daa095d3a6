/** What a track of a take can be said to be, as choices of a list. */
import { hearsAll, type MicGuess, micSaid } from '../../advice/names/guessPair';
import type { Microphone } from '../../sheet/document/model';
import { micOfSheet } from '../../sheet/tracks/sheetMics';
import { LEFT_OUT, type ToldMic } from '../../take/told/told';
import type { Place } from '../../text/micWords';
import { USUAL_DRUMS } from '../../text/names';
import { capital } from '../../text/sentence';

export type Choice = readonly [value: string, text: string];

/** as its name says */
export const BY_NAME = '';

const FAR: readonly (readonly [place: Place, side: MicGuess['side'], text: string])[] = [
  ['overhead', '', 'Overhead'],
  ['overhead', 'left', 'Overhead left'],
  ['overhead', 'right', 'Overhead right'],
  ['room', '', 'Room'],
  ['room', 'left', 'Room left'],
  ['room', 'right', 'Room right'],
];
const ON_KICK: readonly (readonly [Place, string])[] = [
  ['inside', 'in'],
  ['outside', 'out'],
  ['front', 'front'],
  ['beater', 'beater side'],
  ['shell', 'shell'],
  ['driver', 'speaker'],
];
const ON_OTHERS: readonly (readonly [Place, string])[] = [
  ['top', 'top'],
  ['bottom', 'bottom'],
  ['shell', 'shell'],
];

export const FAR_CHOICES: readonly Choice[] = FAR.map(([place, side, text]) => [`far ${place} ${side}`, text]);
export const LEAVE_OUT: Choice = [LEFT_OUT, 'Leave it out'];

export const sheetChoices = (mics: readonly Microphone[]): Choice[] =>
  mics.filter(({ label }) => label !== '').map(({ id, label }) => [`mic ${id}`, label]);

/** Drums of a usual kit, and those that are named already. */
export const drumChoices = (named: readonly string[]): Choice[] =>
  [...new Set([...USUAL_DRUMS, ...named])].filter((drum) => drum !== '').map((drum) => [`drum ${drum}`, capital(drum)]);

/** Where on the drum; the first: nobody says. */
export const placeChoices = (drum: string): Choice[] => [['', 'anywhere'], ...(drum === 'kick' ? ON_KICK : ON_OTHERS)];

/** The choice that stands. @param mics of the open kit sheet */
export function chosenOf(mic: ToldMic | undefined, mics: readonly Microphone[]): string {
  if (mic === undefined) return BY_NAME;
  if (mic === LEFT_OUT) return LEFT_OUT;
  const ofSheet = mics.find(({ label }) => label !== '' && label === mic.label);
  if (ofSheet) return `mic ${ofSheet.id}`;
  return hearsAll(mic) ? `far ${mic.place} ${mic.side}` : `drum ${mic.drum}`;
}

/** What a choice says; null: the name says it. */
export function micChosen(value: string, mics: readonly Microphone[]): ToldMic | null {
  if (value === BY_NAME) return null;
  if (value === LEFT_OUT) return LEFT_OUT;
  const [kind, ...rest] = value.split(' ');
  const name = rest.join(' ');
  if (kind === 'mic') {
    const mic = mics.find(({ id }) => id === name);
    return mic ? micOfSheet(mic) : null;
  }
  if (kind === 'far') {
    const far = FAR.find(([place, side]) => `${place} ${side}` === name);
    return far ? micSaid({ drum: '', place: far[0], side: far[1], number: '' }) : null;
  }
  return micSaid({ drum: name, place: null, side: '', number: '' });
}

export const placed = (mic: MicGuess, place: string): MicGuess =>
  micSaid({ drum: mic.drum, place: place === '' ? null : (place as Place), side: '', number: '' });
