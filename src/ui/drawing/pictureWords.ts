/** What the drawing's lines and microphones are called, and where they lead. */
import { type KitSheet, lastTaken, type Pair } from '../../sheet/document/model';
import type { PairMark } from '../../sheet/drawing/pairMarks';

/** "accepted. same, 2 cm. nothing to do": a state, what was found, what is left */
export const lineWords = (state: string, { found, left, next }: PairMark): string =>
  [state, found, left, next && found !== '' ? 'next' : ''].filter((text) => text !== '').join('; ');

/** The pair that a microphone leads to: the first of its own that is still to do, else an uncertain one, else its first. */
export function micWay({ pairs }: KitSheet, id: string): Pair | null {
  const own = pairs.filter(({ a, b }) => a === id || b === id);
  const todo = own.find(({ acceptedAt }) => acceptedAt === null);
  return todo ?? own.find((pair) => lastTaken(pair)?.sure === false) ?? own[0] ?? null;
}
