/** What is said of the two microphones before anything is judged, by a person or by what they are called. */

import { guessPair, type PairGuess } from '../../advice/names/guessPair';
import type { PairKindId } from '../../advice/plan/pairKinds';

export interface AskedPair {
  kind: PairKindId;
  /** names of the microphones at input (or channel, or file) 1 and 2; empty: none */
  labels: readonly [string, string];
  /** the drum that the pair is about, where somebody said it; empty: the one that the labels name, if any */
  drum: string;
}

/** Nobody said anything. */
export const UNASKED: AskedPair = { kind: 'other', labels: ['', ''], drum: '' };

export const askedOf = (guess: PairGuess): AskedPair => {
  const labels = [guess.a, guess.b] as const;
  return { kind: guess.kind, labels, drum: guess.drum === guessPair(labels).drum ? '' : guess.drum };
};

/** The drum that a pair is about. */
export interface PairDrum {
  name: string;
  /** the microphone close to it, as the labels say; null: somebody said which drum it is */
  closeTo: 'a' | 'b' | null;
}

/** @param labels of A and B. @returns null: neither is a drum said, nor do they name exactly one */
export function pairDrum(said: string, labels: readonly [string, string]): PairDrum | null {
  if (said.trim() !== '') return { name: said.trim(), closeTo: null };
  const { drum, closeTo, turned } = guessPair(labels);
  if (drum === '') return null;
  const other = closeTo === 'a' ? 'b' : 'a';
  return { name: drum, closeTo: closeTo !== null && turned ? other : closeTo };
}

/** Which of it is still what the names let guess. */
export interface Guessed {
  kind: boolean;
  labels: readonly [boolean, boolean];
  drum: boolean;
}

export function guessedOf({ kind, labels, drum }: AskedPair, guess: PairGuess): Guessed {
  const is = (text: string, from: string): boolean => text !== '' && text === from;
  const shown = pairDrum(drum, labels)?.name ?? '';
  return {
    kind: kind !== 'other' && kind === guess.kind,
    labels: [is(labels[0], guess.a), is(labels[1], guess.b)],
    drum: is(shown, guess.drum),
  };
}
