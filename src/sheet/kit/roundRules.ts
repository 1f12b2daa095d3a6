/** The round over the kit: which pair comes next, and how far it is. */
import { type KitSheet, lastTaken } from '../document/model';
import type { KitSystem } from './kitSystem';

export interface Proposal {
  pair: string;
  /** todo: not accepted yet · again: most likely wrong, by what the drum's other readings say */
  why: 'todo' | 'again';
}

/**
 * The pair to measure next. A reading that can't be right comes first while its drum is being struck, then the sheet's
 * order; a pair that was put off comes after the others.
 * @param drum the drum of the pair before; null: none
 * @param later ids of pairs that were put off
 */
export function proposed(
  sheet: KitSheet,
  system: KitSystem,
  drum: string | null,
  later: ReadonlySet<string> = new Set(),
): Proposal | null {
  const again = (here: boolean): Proposal | null => {
    const found = system.drums.find((one) => one.next?.why === 'again' && (!here || one.drum === drum));
    return found?.next && !later.has(found.next.pair) ? { pair: found.next.pair, why: 'again' } : null;
  };
  const todo = sheet.pairs.filter(({ acceptedAt }) => acceptedAt === null);
  const first = todo.find(({ id }) => !later.has(id)) ?? todo[0];
  return again(true) ?? (first ? { pair: first.id, why: 'todo' } : again(false));
}

/** The next accepted pair after this one, for a second look, round to the first; null: none is accepted. */
export function nextToCheck(sheet: KitSheet, after: string | null): string | null {
  // with what was accepted as unsure nothing can be compared
  const accepted = sheet.pairs.filter((pair) => pair.acceptedAt !== null && lastTaken(pair)?.sure);
  const order = sheet.pairs.findIndex(({ id }) => id === after);
  const next = accepted.find((pair) => sheet.pairs.indexOf(pair) > order) ?? accepted[0];
  return next?.id ?? null;
}

export interface Progress {
  accepted: number;
  /** accepted as unsure, of these */
  unsure: number;
  pairs: number;
}

export function progressOf({ pairs }: KitSheet): Progress {
  const accepted = pairs.filter(({ acceptedAt }) => acceptedAt !== null);
  const unsure = accepted.filter((pair) => !lastTaken(pair)?.sure);
  return { accepted: accepted.length, unsure: unsure.length, pairs: pairs.length };
}
