/** One pair in one line: what is left to do about it, whole, and what that gains. */
import type { Action, Alternative } from '../../advice/plan/alternatives';
import { dbText } from '../../text/level';
import { countedTaken, type KitSheet, lastTaken, type Pair, type Taken } from '../document/model';
import { switchesDiffer } from '../pair/asItStands';
import { isPresent, leftToDo, type PairPlan, planOf, sameAction } from '../pair/pairPlan';
import { actionText, byItself, gainsText, type PlanNames } from '../pair/planWords';
import type { KitChoice, PairInKit } from './kitChoice';

/** What a pair gets in the whole kit; null: nothing is known of it, or it wasn't accepted. */
export const inKit = (choice: KitChoice | null, pair: Pair): PairInKit | null =>
  choice?.pairs.find((one) => one.pair === pair.id) ?? null;

/** What was left on purpose is left. */
export const LEFT = 'left as it is on purpose';

/** What is left to do about a pair, whole: the one thing that the hand-over and the spreadsheet both tell. */
export interface Left {
  action: Alternative;
  /** ids of the pair's microphones whose polarity is inverted: none, one or both */
  inverted: string[];
  plan: PairPlan;
}

/**
 * Of a pair that was accepted as the whole kit has it, of one that wasn't as it would be by itself.
 * @returns null: it wasn't read, or nothing can be recommended
 */
export function leftOf(sheet: KitSheet, choice: KitChoice | null, pair: Pair): Left | null {
  const taken = lastTaken(pair);
  if (taken === null) return null;
  const got = inKit(choice, pair);
  const plan = got?.plan ?? planOf(sheet, pair, taken);
  const action = got?.gets ?? leftToDo(plan);
  if (action === null) return null;
  const inverted = got ? (choice?.invert ?? []) : byItself(sheet, pair, action);
  return { action, inverted: [pair.a, pair.b].filter((id) => inverted.includes(id)), plan };
}

/**
 * "delay Snare top by 2.76 ms (122 samples); leave both polarities: +5.8 dB in the drum’s low octave (88–177 Hz), +5.5 dB
 * overall". Of a pair that was accepted as the whole kit has it, of one that wasn't as it would be by itself.
 * @returns empty: it wasn't read
 */
export function leftText(sheet: KitSheet, choice: KitChoice | null, pair: Pair, nameOf: PlanNames['nameOf']): string {
  const taken = lastTaken(pair);
  if (taken === null) return '';
  const left = leftOf(sheet, choice, pair);
  if (left === null) return `no plan: ${sumText(taken)}`;
  const { action, inverted, plan } = left;
  if (isPresent(action) && inverted.length < 2) {
    if (plan.leftOnPurpose) return LEFT;
    return countedTaken(pair) === null ? 'leave both as they are' : 'nothing left to do';
  }
  const text = actionText(sheet, pair, action, { inverted, nameOf });
  if (isPresent(action)) return `${text}: nothing changes between the two`;
  return `${text}: ${gainsText(action, taken)}`;
}

/** The pair's own plan, as long as it is what comes of the pair; null: something else does, or nothing was recommended. */
export function planInForce(sheet: KitSheet, choice: KitChoice | null, pair: Pair): Action | null {
  const taken = lastTaken(pair);
  const got = inKit(choice, pair);
  if (taken === null || taken.plan === null || pair.acceptedAt === null) return taken?.plan ?? null;
  if (got === null) return null;
  const invertB = switchesDiffer(sheet, pair, taken) ? !got.gets.invertB : got.gets.invertB;
  return sameAction({ ...got.gets, invertB }, taken.plan) ? taken.plan : null;
}

/** What the reading knows of the sum where nothing can be recommended by it. */
function sumText({ fuller, fullerDb, polarity }: Taken): string {
  if (fuller === null || fuller === 'either' || fullerDb === null)
    return polarity === null ? 'the reading is uncertain' : 'the sum is unknown';
  const how = fuller === 'as-is' ? 'as measured' : 'with one inverted';
  return `${dbText(fullerDb)} fuller in the drum’s low octave ${how}, unknown overall; measure it again`;
}
