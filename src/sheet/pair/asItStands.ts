/** A reading as the pair's two polarity switches stand now: they may have been changed since it was taken. */
import { opposite } from '../../reading/polarity';
import type { Polarity } from '../../reading/reading';
import { isInverted, type KitSheet, type Pair, type Taken } from '../document/model';

/** One of the pair's two switches was changed since the reading, and the other one wasn't. */
export function switchesDiffer(sheet: KitSheet, { a, b }: Pair, taken: Taken): boolean {
  return (isInverted(sheet, a) !== taken.aInverted) !== (isInverted(sheet, b) !== taken.bInverted);
}

/** Null: the reading has none. */
export function polarityNow(sheet: KitSheet, pair: Pair, taken: Taken): Polarity | null {
  return taken.polarity && switchesDiffer(sheet, pair, taken) ? opposite(taken.polarity) : taken.polarity;
}

/** Would the two be fuller with one of them inverted? Null: the reading prefers neither. */
export function fullerTurned(sheet: KitSheet, pair: Pair, taken: Taken): boolean | null {
  if (taken.fuller === null || taken.fuller === 'either') return null;
  return (taken.fuller === 'inverted') !== switchesDiffer(sheet, pair, taken);
}
