/** The round: which pair comes next, what was done to it between its readings, and how far the kit is. */
import { pathCm } from '../../reading/acoustics';
import { type Done, type KitSheet, lastTaken, type Pair, type Taken } from '../document/model';
import type { KitSystem } from '../kit/system';
import { recheck } from './recheck';

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

export interface Outcome {
  before: Taken;
  after: Taken | null;
  /** null: nothing was done */
  done: Done | null;
}

/** Nobody knows by what: a switch that wasn't told of, a cable, the patch. */
export const TURNED_OVER = 'polarity turned over, no switch told of';

const NOTHING_DONE: Done = { inverted: null, movedCm: null, delayLaterMs: null, leftOnPurpose: false, note: '' };

/**
 * What was done to a pair, seen from its readings: switches that stand otherwise, a distance that changed by more than the
 * scatter. A polarity that turned over without a switch is noted as just that.
 * Without a change the newer reading is the only one.
 * @param before the first reading of this turn; null: none
 * @param delayLaterMs to be delayed in the mix, if anything: positive B, negative A
 */
export function outcomeOf(
  before: Taken | null,
  now: Taken,
  { delayLaterMs = null, left = null }: { delayLaterMs?: number | null; left?: string | null } = {},
): Outcome {
  const extra = { delayLaterMs, leftOnPurpose: left !== null, note: left ?? '' };
  const plain = delayLaterMs !== null || left !== null ? { ...NOTHING_DONE, ...extra } : null;
  if (before === null) return { before: now, after: null, done: plain };
  const switched = before.aInverted !== now.aInverted || before.bInverted !== now.bInverted;
  const { change, fartherCm, seenFromCm } = recheck(before, now);
  const turned = change === 'polarity';
  const moved = fartherCm !== null && seenFromCm !== null && Math.abs(fartherCm) > seenFromCm;
  if (!switched && !turned && !moved) return { before: now, after: null, done: plain };
  const a = before.aInverted !== now.aInverted;
  const b = before.bInverted !== now.bInverted;
  return {
    before,
    after: now,
    done: {
      ...NOTHING_DONE,
      ...extra,
      inverted: a && b ? 'both' : a ? 'a' : b ? 'b' : null,
      note: left ?? (turned ? TURNED_OVER : ''),
      movedCm: moved ? Math.round(-(fartherCm as number) * 10) / 10 : null,
    },
  };
}

/** How much farther from the drum than A the pair's B is, path in cm; null: not known. */
export function fartherCm(taken: Taken): number | null {
  return taken.delayMs === null ? null : pathCm(taken.delayMs / 1000, taken.temperatureC);
}

/** A pair as it is put away: its readings, what was done, when. A second look at what was accepted before is over. */
export function accepted(pair: Pair, outcome: Outcome, acceptedAt: string): Pair {
  return { ...pair, ...outcome, acceptedAt, checked: null };
}

/** What a second look found stands from now on: nobody did it, so what was done before stays as it was written down. */
export function standing({ before, after, done }: Pair, now: Taken): Outcome {
  return after !== null && before !== null ? { before, after: now, done } : { before: now, after: null, done };
}
