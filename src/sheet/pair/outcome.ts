/** What was done to a pair between its readings, and how it is put away. */
import type { Done, Later, Pair, Taken } from '../document/model';
import { recheck } from './recheck';

export interface Outcome {
  before: Taken;
  after: Taken | null;
  /** null: nothing was done */
  done: Done | null;
}

/** Nobody knows by what: a switch that wasn't told of, a cable, the patch. */
export const TURNED_OVER = 'polarity inverted, no switch press noted';

const NOTHING_DONE: Done = { inverted: null, movedCm: null, later: null, leftOnPurpose: false, note: '' };

/**
 * What was done to a pair, seen from its readings: switches that stand otherwise, a distance that changed by more than the
 * scatter. A polarity that turned over without a switch is noted as just that.
 * Without a change the newer reading is the only one.
 * @param before the first reading of this turn; null: none
 * @param later what was put off to the mix
 * @param left why it was left as it is on purpose; null: it wasn't
 */
export function outcomeOf(
  before: Taken | null,
  now: Taken,
  { later = null, left = null }: { later?: Later | null; left?: string | null } = {},
): Outcome {
  const extra = { later, leftOnPurpose: left !== null, note: left ?? '' };
  const plain = later !== null || left !== null ? { ...NOTHING_DONE, ...extra } : null;
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

/** A pair as it is put away: its readings, what was done, when. A second look at what was accepted before is over. */
export function accepted(pair: Pair, outcome: Outcome, acceptedAt: string): Pair {
  return { ...pair, ...outcome, acceptedAt, checked: null };
}

/** What a second look found stands from now on: nobody did it, so what was done before stays as it was written down. */
export function standing({ before, after, done }: Pair, now: Taken): Outcome {
  return after !== null && before !== null ? { before, after: now, done } : { before: now, after: null, done };
}
