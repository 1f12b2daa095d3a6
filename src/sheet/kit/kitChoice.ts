/**
 * What the kit as a whole has done: which polarity switches, and what each pair gets by them. It starts from what each pair
 * would have by itself; a pair that can't have it gets the best that goes with the switch it gets, whole.
 */
import { type Alternative, gainDb } from '../../advice/plan/alternatives';
import { countedTaken, type KitSheet, type Pair } from '../document/model';
import { referencesOf } from '../document/references';
import { type Preference, planSwitches, type SwitchPlan } from '../network/switches';
import { TooManyTogether } from '../network/tooManyTogether';
import { wayBetween } from '../network/ways';
import { bestInMix, inTheMixOf, type PairPlan, planOf, sameAction } from '../pair/pairPlan';
import { type KitDelay, settleDelays } from './kitDelays';

export interface KitChoice {
  /** ids of microphones whose switch to change */
  invert: string[];
  /** microphones that are delayed in the mix */
  delays: KitDelay[];
  /** every accepted pair of which something is recommended or decided */
  pairs: PairInKit[];
}

export interface PairInKit {
  pair: string;
  plan: PairPlan;
  /** what it would have by itself, in the mix */
  own: Alternative;
  /** what it gets: with the switches and the delays of the whole kit */
  gets: Alternative;
  /** why it gets something else than its own; null: it has its own, or nothing says why */
  because: Because | null;
}

export type Because =
  /** the microphone stays as it is, or is inverted, for another pair's sake */
  | { code: 'pair'; microphone: string; inverted: boolean; pair: string }
  /** the microphone follows another drum */
  | { code: 'follows'; microphone: string; drum: string }
  /** what is delayed for the other pair goes along */
  | { code: 'delay'; pair: string };

/** A pair counts for at least so much, dB: one of 0 would be none. */
const LEAST_WEIGHT_DB = 0.1;
/** What was left on purpose stays as it was when it was accepted: as good a result as any, and dearer than any gain, dB. */
const LEFT_WEIGHT_DB = 1000;

interface Asking {
  pair: Pair;
  plan: PairPlan;
  own: Alternative;
}

/**
 * What is gained most together; louder gains count more, by how many dB. Of two sets of switches that come to the same, the
 * one that leaves the drums' references. Null: readings of all drums hold together more microphones than can be tried.
 */
export function kitChoice(sheet: KitSheet): KitChoice | null {
  const place = new Map(sheet.microphones.map(({ id }, i) => [id, i]));
  const at = (id: string): number => place.get(id) as number;
  const asking = sheet.pairs.flatMap((pair): Asking[] => {
    const taken = countedTaken(pair);
    const plan = taken && planOf(sheet, pair, taken);
    const own = plan && inTheMixOf(plan);
    return plan && own ? [{ pair, plan, own }] : [];
  });
  const preferences = asking.map(
    ({ pair, plan, own }): Preference => ({
      drum: pair.drum,
      a: at(pair.a),
      b: at(pair.b),
      turn: own.invertB ? -1 : 1,
      weight: weightOf(plan, own),
    }),
  );
  const switches = planned(
    sheet.microphones.length,
    preferences,
    new Map(sheet.follows.map(({ microphone, drum }) => [at(microphone), drum])),
    new Set(referencesOf(sheet).flatMap((id) => place.get(id) ?? [])),
  );
  if (switches === null) return null;
  const invert = switches.change.map((i) => sheet.microphones[i]?.id as string);
  const bySwitch = asking.map((one) => ({ ...one, gets: withSwitch(one, turnedBy(invert, one.pair)) }));
  const { delays, settled } = settleDelays(sheet, bySwitch);
  return {
    invert,
    delays,
    pairs: bySwitch.map(({ pair, plan, own }, i) => {
      const { gets, because } = settled[i] as (typeof settled)[number];
      const bySwitches = own.invertB === gets.invertB ? null : whySwitch(sheet, asking, switches, invert, i);
      return { pair: pair.id, plan, own, gets, because: sameAction(own, gets) ? null : (bySwitches ?? because) };
    }),
  };
}

/** The switch between the two is turned: one of them changes. */
export const turnedBy = (invert: readonly string[], { a, b }: Pair): boolean =>
  invert.includes(a) !== invert.includes(b);

/** By how much the pair's own way is better than the best of the other. */
function weightOf(plan: PairPlan, own: Alternative): number {
  if (plan.leftOnPurpose) return LEFT_WEIGHT_DB;
  const other = bestInMix(plan, !own.invertB);
  const [gain, without] = [gainDb(own), other && gainDb(other)];
  if (gain === null || without === null) return LEAST_WEIGHT_DB;
  return Math.max(LEAST_WEIGHT_DB, gain - without);
}

/** What the pair gets with the switch one way or the other, whole. */
function withSwitch({ plan, own }: Asking, invertB: boolean): Alternative {
  if (own.invertB === invertB) return own;
  return (
    bestInMix(plan, invertB) ?? { ...own, invertB, lowDb: null, allDb: null, bandsDb: own.bandsDb.map(() => null) }
  );
}

function whySwitch(
  sheet: KitSheet,
  asking: readonly Asking[],
  { unmet, ignored }: SwitchPlan,
  invert: readonly string[],
  i: number,
): Because | null {
  const { pair } = asking[i] as Asking;
  if (ignored.includes(i)) {
    const follows = sheet.follows.find(
      ({ microphone, drum }) => (microphone === pair.a || microphone === pair.b) && drum !== pair.drum,
    );
    return follows ? { code: 'follows', ...follows } : null;
  }
  // what holds the two together otherwise: a way of pairs that have theirs
  const met = asking.filter((_, k) => !unmet.includes(k) && !ignored.includes(k));
  const place = new Map(sheet.microphones.map(({ id }, k) => [id, k]));
  const at = (id: string): number => place.get(id) as number;
  const way = wayBetween(
    met.map((one) => ({ a: at(one.pair.a), b: at(one.pair.b) })),
    at(pair.a),
    at(pair.b),
  );
  if (way === null || way.length === 0) return null;
  const ends = [
    { microphone: pair.a, by: met[way[0] as number] as Asking },
    { microphone: pair.b, by: met[way.at(-1) as number] as Asking },
  ];
  const [first, last] = ends as [(typeof ends)[number], (typeof ends)[number]];
  const { microphone, by } = weightOf(last.by.plan, last.by.own) > weightOf(first.by.plan, first.by.own) ? last : first;
  return { code: 'pair', microphone, inverted: invert.includes(microphone), pair: by.pair.id };
}

/** What each drum says stands even where the whole kit is too much to try. */
function planned(...given: Parameters<typeof planSwitches>): SwitchPlan | null {
  try {
    return planSwitches(...given);
  } catch (error) {
    if (error instanceof TooManyTogether) return null;
    throw error;
  }
}
