/**
 * What is to be done about one pair: the one place from which the sheet, the kit, the hand-over and the spreadsheet have it.
 * It counts from the two switches as they stand now, which may have been changed since the reading.
 */
import {
  type Action,
  type Alternative,
  alternativesOf,
  gainDb,
  recommendedOf,
  type Timing,
  turned,
} from '../../advice/plan/alternatives';
import { type SumByDelay, timingAt, turnedSum } from '../../advice/plan/sumByDelay';
import { BANDS } from '../../reading/bands';
import type { KitSheet, Pair, Taken } from '../document/model';
import { switchesDiffer } from './asItStands';

export interface PairPlan {
  /** the present first; empty: neither sum nor arrival carries anything */
  timings: Timing[];
  alternatives: Alternative[];
  /** for any other delay; null: not known */
  sumByDelay: SumByDelay | null;
  /** null: nothing can be recommended */
  recommended: Alternative | null;
  /** what a person decided on: to do it in the mix, or to leave the pair as it was accepted; null: nothing */
  chosen: Alternative | null;
  leftOnPurpose: boolean;
}

/** A delay that differs by less is the same, ms: it is told to 0.01 ms. */
const SAME_DELAY_MS = 0.006;
/** … and a move, cm */
const SAME_MOVE_CM = 0.05;

export function planOf(sheet: KitSheet, pair: Pair, taken: Taken): PairPlan {
  const differ = switchesDiffer(sheet, pair, taken);
  const timings = differ ? turned(taken.timings) : taken.timings;
  const alternatives = alternativesOf(timings);
  const { sumByDelay: sum } = taken;
  const known = { timings, alternatives, sumByDelay: sum && differ ? turnedSum(sum) : sum };
  const { done } = pair;
  const leftOnPurpose = done?.leftOnPurpose ?? false;
  const asItWas: Action | null = leftOnPurpose
    ? { invertB: false, delayMs: null, moveCm: null }
    : done?.later
      ? { ...done.later, moveCm: null }
      : null;
  return {
    ...known,
    recommended: recommendedNow(known, taken.plan, differ),
    chosen: asItWas && withGains(known, turnedBy(asItWas, differ)),
    leftOnPurpose,
  };
}

type Known = Pick<PairPlan, 'timings' | 'alternatives' | 'sumByDelay'>;

/** What the meter recommended, as long as the switches stand so; by the same rule anew where they don't. */
function recommendedNow(known: Known, plan: Action | null, differ: boolean): Alternative | null {
  if (plan === null) return null;
  const then = withGains(known, turnedBy(plan, differ));
  const { alternatives } = known;
  return differ && alternatives.length > 0 && gainDb(then) !== null ? recommendedOf(alternatives) : then;
}

/** The same end, from a switch that stands the other way. */
const turnedBy = (action: Action, differ: boolean): Action =>
  differ ? { ...action, invertB: !action.invertB } : action;

/** The alternative that is this action; of another delay what the sum says there, of another move nothing. */
function withGains({ timings: [present], alternatives, sumByDelay }: Known, action: Action): Alternative {
  const { invertB, delayMs, moveCm } = action;
  const found = alternatives.find((one) => sameAction(one, action));
  if (found) return found;
  if (isPresent(action)) return { invertB, delayMs, moveCm, lowDb: 0, allDb: 0, bandsDb: BANDS.map(() => 0) };
  const there = delayMs === null || sumByDelay === null ? null : timingAt(sumByDelay, delayMs);
  const levels = there && (invertB ? there.inverted : there.asIs);
  const gain = (band: 'lowDb' | 'allDb'): number | null => minus(levels?.[band] ?? null, present?.asIs[band] ?? null);
  return { invertB, delayMs, moveCm, lowDb: gain('lowDb'), allDb: gain('allDb'), bandsDb: NONE };
}

const NONE: Alternative['bandsDb'] = BANDS.map(() => null);
const minus = (x: number | null, y: number | null): number | null => (x === null || y === null ? null : x - y);

/** Two delays that differ by less are one in the whole kit, ms: a sample at 48 kHz. */
const SAME_IN_KIT_MS = 0.02;

/**
 * What the pair gets with a switch and a delay between its two that the whole kit sets, ms: positive: A is delayed.
 * @param own what it would have by itself
 */
export function withDelay(plan: PairPlan, own: Alternative | null, invertB: boolean, delayMs: number): Alternative {
  const same = (one: Action): boolean =>
    one.invertB === invertB && one.moveCm === null && Math.abs((one.delayMs ?? 0) - delayMs) < SAME_IN_KIT_MS;
  if (own && same(own)) return own;
  return (
    plan.alternatives.find(same) ??
    withGains(plan, { invertB, delayMs: Math.abs(delayMs) < SAME_IN_KIT_MS ? null : delayMs, moveCm: null })
  );
}

/** Nothing is to be done. */
export const isPresent = ({ invertB, delayMs, moveCm }: Action): boolean =>
  !invertB && delayMs === null && moveCm === null;

export const sameAction = (one: Action, other: Action): boolean =>
  one.invertB === other.invertB &&
  near(one.delayMs, other.delayMs, SAME_DELAY_MS) &&
  near(one.moveCm, other.moveCm, SAME_MOVE_CM);

const near = (x: number | null, y: number | null, by: number): boolean =>
  x === null || y === null ? x === y : Math.abs(x - y) < by;

/** What is left to do: what was decided on, else what is recommended; null: nothing is known. */
export const leftToDo = ({ chosen, recommended }: PairPlan): Alternative | null => chosen ?? recommended;

/**
 * The best that can be done in the mix, where nobody can move a stand, with the switch between the two one way or the other.
 * @returns null where the sum doesn't say
 */
export function bestInMix(plan: PairPlan, invertB: boolean): Alternative | null {
  const still = plan.timings.filter(({ moveCm }) => moveCm === null);
  const there = alternativesOf(invertB ? turned(still) : still).filter((one) => !one.invertB);
  if (there.length === 0) return null;
  const { delayMs } = recommendedOf(there);
  return (
    plan.alternatives.find((one) => one.invertB === invertB && one.moveCm === null && one.delayMs === delayMs) ?? null
  );
}

/** What is left to do in the mix: a move that wasn't made is none of it. Null: nothing is known. */
export function inTheMixOf(plan: PairPlan): Alternative | null {
  const left = leftToDo(plan);
  if (left === null || left.moveCm === null) return left;
  const still = plan.alternatives.filter(({ moveCm }) => moveCm === null);
  return still.length === 0 ? null : recommendedOf(still);
}
