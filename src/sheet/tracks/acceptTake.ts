/** Readings of a take go on a sheet, as those of the meter do: what was there before stays as what was before. */
import type { Reading } from '../../reading/reading';
import { recordPair } from '../document/edits';
import { MOST_FILE_NAME } from '../document/fileLimits';
import { isInverted, type KitSheet, lastTaken, type Pair, type Taken } from '../document/model';
import { accepted, type Outcome, outcomeOf, standing } from '../pair/outcome';
import { recheck } from '../pair/recheck';
import { type TakenWith, takenFrom } from '../pair/taken';
import type { TrackPair } from './sheetTake';
import { type OnSheet, pairOnSheet, withPairs } from './takeSheet';

export interface AcceptWith {
  /** ISO 8601, UTC: now */
  at: string;
  /** readings of one take hear the same hits */
  run: string;
  initials: string;
  temperatureC: number;
}

/** What became of the readings: ids of the sheet's pairs. */
export interface Accepted {
  sheet: KitSheet;
  /** without a reading before */
  fresh: string[];
  /** read before, and as it was */
  same: string[];
  /** read before, and it differs: the reading before is kept */
  changed: string[];
  /** readings of pairs that the sheet has no place for: a mic of theirs isn't on it, or they decide about nothing */
  passedOver: number;
}

/** @param pairs those to be accepted */
export function acceptTake(given: KitSheet, on: OnSheet, pairs: readonly TrackPair[], how: AcceptWith): Accepted {
  const result: Accepted = { sheet: withPairs(given, on, pairs), fresh: [], same: [], changed: [], passedOver: 0 };
  for (const one of pairs) {
    const there = pairOnSheet(result.sheet, on, one);
    if (!there?.pair) {
      result.passedOver++;
      continue;
    }
    const { pair, turned } = there;
    const now = takenOf(result.sheet, pair, one, turned, how);
    const { outcome, is } = whatIs(pair, now);
    result[is].push(pair.id);
    result.sheet = recordPair(result.sheet, pair.id, accepted(pair, outcome, how.at));
  }
  return result;
}

/** The reading as the sheet keeps it, by the sheet's A and B. */
export function takenOf(sheet: KitSheet, pair: Pair, read: TrackPair, turned: boolean, how: AcceptWith): Taken {
  const files = (turned ? [read.b, read.a] : [read.a, read.b]).map((file) => file.slice(0, MOST_FILE_NAME));
  const given: TakenWith = {
    takenAt: how.at,
    run: how.run,
    initials: how.initials,
    temperatureC: how.temperatureC,
    kind: pair.kind,
    aInverted: isInverted(sheet, pair.a),
    bInverted: isInverted(sheet, pair.b),
    meterInvert: false,
    turned,
    shown: null,
    files: files as [string, string],
  };
  const { takenAt, run, initials, aInverted, bInverted } = given;
  return {
    ...plannedOnce(read.reading, given),
    takenAt,
    run,
    initials,
    aInverted,
    bInverted,
    files: files as [string, string],
  };
}

/** What is worked out of a reading; the page asks for it whenever the sheet changes. */
const known = new WeakMap<Reading, Map<string, Taken>>();

function plannedOnce(reading: Reading, given: TakenWith): Taken {
  const of = known.get(reading) ?? new Map<string, Taken>();
  known.set(reading, of);
  const key = `${given.kind} ${given.turned} ${given.temperatureC}`;
  const taken = of.get(key) ?? takenFrom(reading, given);
  of.set(key, taken);
  return taken;
}

/** A reading that was begun at the meter and not accepted is the one before, too. */
function whatIs(pair: Pair, now: Taken): { outcome: Outcome; is: 'fresh' | 'same' | 'changed' } {
  const then = lastTaken(pair);
  if (then === null) return { outcome: outcomeOf(null, now), is: 'fresh' };
  const switched = then.aInverted !== now.aInverted || then.bInverted !== now.bInverted;
  const { change } = recheck(then, now);
  if (!switched && change === 'same') return { outcome: standing(pair, now), is: 'same' };
  // of one that wasn't sure nothing can be said to have changed
  if (!then.sure) return { outcome: outcomeOf(null, now), is: 'fresh' };
  return { outcome: outcomeOf(pair.before, now), is: 'changed' };
}
