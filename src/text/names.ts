/** What microphones, pairs, drums and kits are called, wherever they are named. */
import type { DrumFacts } from '../reading/reading';
import { hzText } from './frequency';
import type { MicNames } from './length';

/** what has no name */
export const UNNAMED = 'unnamed';

/** "Snare top"; "unnamed" where it has no label */
export const microphoneName = (label: string | undefined): string => label?.trim() || UNNAMED;

/** "Snare top (input 5)"; the same without an input */
export function patchedName(label: string | undefined, input: string | undefined): string {
  return input?.trim() ? `${microphoneName(label)} (input ${input.trim()})` : microphoneName(label);
}

/** "Snare top & Snare bottom" */
export const pairName = (a: string | undefined, b: string | undefined): string =>
  `${microphoneName(a)} & ${microphoneName(b)}`;

/** longer labels describe a place rather than name a microphone, letters */
const NAME_LETTERS = 28;

/** What a microphone is called aloud: "Snare bottom"; its letter where it has no label, or one that is too long to be said. */
export function calledName(letter: 'A' | 'B', label: string | undefined): string {
  const name = label?.trim() ?? '';
  return name === '' || name.length > NAME_LETTERS ? letter : name;
}

/** "B", or "B (bottom)" where it has a label; of a long one what stands before its first comma. */
export function letterName(letter: 'A' | 'B', label: string | undefined): string {
  const name = label?.trim() ?? '';
  const [start = ''] = name.split(',');
  const shown = name.length <= NAME_LETTERS ? name : start.trim();
  return shown === '' || shown.length > NAME_LETTERS ? letter : `${letter} (${shown})`;
}

/** "A", "B", "A and B" */
export const whichText = (which: 'a' | 'b' | 'both'): string => (which === 'both' ? 'A and B' : which.toUpperCase());

/** A drum of the sheet: "snare"; "unnamed drum" */
export const sheetDrumName = (drum: string): string => drum.trim() || `${UNNAMED} drum`;

/** "Rehearsal barn"; "unnamed kit" */
export const kitName = (name: string | undefined): string => name?.trim() || `${UNNAMED} kit`;

/** Drums of a usual kit, as they are called where a person says which one it is. */
export const USUAL_DRUMS: readonly string[] = ['snare', 'kick', 'rack tom', 'floor tom', 'hi-hat', 'ride', 'crash'];

/** letters of a drum's name */
export const DRUM_NAME_LETTERS = 40;

/** A drum's name as a person gave it, fit to be kept: one line, not too long, a usual drum as it is usually written. Null: none. */
export function givenDrumName(text: string): string | null {
  const name = text.replace(/\s+/g, ' ').trim().slice(0, DRUM_NAME_LETTERS).trim();
  if (name === '') return null;
  return isUsualDrum(name) ? name.toLowerCase() : name;
}

/** a name that takes an article, and no capital: "tom 1" and what a person made up don't */
const isUsualDrum = (name: string): boolean =>
  USUAL_DRUMS.includes(name.toLowerCase()) || /^((high|mid|low) )?tom$/i.test(name);

/** A drum that the meter hears, in short: "drum 2", or its name where somebody said it */
export const drumNumber = (id: number, name?: string | null): string => name?.trim() || `drum ${id}`;

/** The same inside a sentence: "the snare"; "tom 1" and "drum 2" take no article */
export function theDrum(id: number, name?: string | null): string {
  const short = drumNumber(id, name);
  return isUsualDrum(short) ? `the ${short}` : short;
}

/** louder in B than every other drum by this, dB: less isn't heard as louder */
const LOUDER_DB = 3;

/**
 * "snare" where somebody said so; else "drum 2 (loudest in B, around 551 Hz in A)": what tells a drum from the others. Never
 * low or high: a beater or a cymbal may put the middle of a kick's energy above a snare's. Which is the loudest in A is said by
 * their order.
 * @param mics what A and B are called
 */
export function drumName(
  drum: DrumFacts,
  { drums }: { drums: readonly DrumFacts[] },
  name?: string | null,
  mics: MicNames = { a: 'A', b: 'B' },
): string {
  if (name?.trim()) return name.trim();
  const others = drums.filter(({ id }) => id !== drum.id);
  const level = drum.levelBDbfs;
  const loudest =
    level !== null &&
    others.length > 0 &&
    others.every(({ levelBDbfs }) => levelBDbfs !== null && level >= levelBDbfs + LOUDER_DB);
  const tells = [
    ...(loudest ? [`loudest in ${mics.b}`] : []),
    ...(drum.centreHz === null ? [] : [`around ${hzText(drum.centreHz)} in ${mics.a}`]),
  ];
  return `${drumNumber(drum.id)}${tells.length === 0 ? '' : ` (${tells.join(', ')})`}`;
}
