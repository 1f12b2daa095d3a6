/** What microphones, pairs, drums and kits are called, wherever they are named. */
import type { DrumFacts } from '../reading/reading';
import { hzText } from './frequency';

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

/** "B", or "B (bottom)" where it has a label. */
export function letterName(letter: 'A' | 'B', label: string | undefined): string {
  return label?.trim() ? `${letter} (${label.trim()})` : letter;
}

/** "A", "B", "A and B" */
export const whichText = (which: 'a' | 'b' | 'both'): string => (which === 'both' ? 'A and B' : which.toUpperCase());

/** A drum of the sheet: "snare"; "unnamed drum" */
export const sheetDrumName = (drum: string): string => drum.trim() || `${UNNAMED} drum`;

/** "Rehearsal barn"; "unnamed kit" */
export const kitName = (name: string | undefined): string => name?.trim() || `${UNNAMED} kit`;

/** A drum that the meter hears, in short: "drum 2" */
export const drumNumber = (id: number): string => `drum ${id}`;

/** louder in B than every other drum by this, dB: less isn't heard as louder */
const LOUDER_DB = 3;

/**
 * "drum 2 (loudest in B, energy round 551 Hz in A)": what tells a drum from the others. Never low or high: a beater or a cymbal
 * may put the middle of a kick's energy above a snare's. Which is the loudest in A is said by their order.
 */
export function drumName(drum: DrumFacts, { drums }: { drums: readonly DrumFacts[] }): string {
  const others = drums.filter(({ id }) => id !== drum.id);
  const level = drum.levelBDbfs;
  const loudest =
    level !== null &&
    others.length > 0 &&
    others.every(({ levelBDbfs }) => levelBDbfs !== null && level >= levelBDbfs + LOUDER_DB);
  const tells = [
    ...(loudest ? ['loudest in B'] : []),
    ...(drum.centreHz === null ? [] : [`energy round ${hzText(drum.centreHz)} in A`]),
  ];
  return `${drumNumber(drum.id)}${tells.length === 0 ? '' : ` (${tells.join(', ')})`}`;
}
