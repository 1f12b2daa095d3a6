/**
 * What a pair loses in the whole kit against what it would have by itself, dB: of the two gains, the drum's low octave and
 * overall, the smaller one counts. This is the one figure by which switches and delays are chosen.
 */
import { type Alternative, gainDb } from '../../advice/plan/alternatives';
import type { KitSheet, Pair } from '../document/model';
import type { KitPair, Way } from '../network/together';
import { bestInMix, type PairPlan, withDelay } from '../pair/pairPlan';

/** An accepted pair of which something is recommended or decided. */
export interface Asking {
  pair: Pair;
  plan: PairPlan;
  own: Alternative;
}

/** Not having its own costs at least so much, dB; more where a person decided on it. */
const LEAST_DB = 0.1;
const DECIDED_DB = 1;
/** A delay between two of which nothing is recommended, dB: they go along where nothing speaks against it. */
const ALONG_DB = 0.05;
/** Dearer than any gain, dB: a gain that would no longer be known … */
export const UNKNOWN_DB = 100;
/** … and what was left on purpose: it stays as it was when it was accepted. */
const LEFT_DB = 1000;

/** @param asked false: another drum decides about the switch between the two; the best that goes with it is all it asks for */
export function kitPair({ plan, own }: Asking, ends: { a: number; b: number }, asked: boolean): KitPair {
  const least = plan.chosen === null ? LEAST_DB : DECIDED_DB;
  const best = [false, true].map((turned) => (own.invertB === turned ? own : bestInMix(plan, turned)));
  const lossDb = (turned: boolean, delayMs: number): number => {
    const gets = withDelay(plan, own, turned, delayMs);
    const aim = asked ? own : best[Number(turned)];
    if (gets === own || (!asked && gets === aim)) return 0;
    if (plan.leftOnPurpose) return LEFT_DB;
    const gain = gainDb(gets);
    if (gain === null) return Math.max(least, partlyKnownLoss(plan, gets, aim));
    const wanted = aim ? gainDb(aim) : null;
    return wanted === null ? least : Math.max(least, wanted - gain);
  };
  const ways = [own, ...best, still(false), still(true)].flatMap((one): Way[] =>
    one ? [{ turned: one.invertB, delayMs: one.delayMs ?? 0 }] : [],
  );
  const same = (p: Way, q: Way): boolean => p.turned === q.turned && p.delayMs === q.delayMs;
  return { ...ends, asked, lossDb, ways: ways.filter((way, i) => ways.findIndex((one) => same(one, way)) === i) };
}

const still = (invertB: boolean) => ({ invertB, delayMs: null });

/** Of the others nothing is known but that they were recorded as they stand. */
export const restPair = (ends: { a: number; b: number }): KitPair => ({
  ...ends,
  asked: false,
  ways: [false, true].map((turned) => ({ turned, delayMs: 0 })),
  lossDb: (_, delayMs) => (delayMs === 0 ? 0 : ALONG_DB),
});

/** Of two figures one isn't known: the other counts, and what is known of the present must not be lost to a delay. */
function partlyKnownLoss(
  { timings: [present] }: PairPlan,
  gets: Alternative,
  aim: Alternative | null | undefined,
): number {
  const losses = (['lowDb', 'allDb'] as const).map((figure) => {
    const gain = gets[figure];
    if (gain === null) return gets.delayMs !== null && present?.asIs[figure] != null ? UNKNOWN_DB : 0;
    return (aim?.[figure] ?? 0) - gain;
  });
  return Math.max(...losses);
}

/** Does a microphone of the pair follow another drum? */
export const followsOther = ({ follows }: KitSheet, { a, b, drum }: Pair): KitSheet['follows'][number] | null =>
  follows.find((one) => (one.microphone === a || one.microphone === b) && one.drum !== drum) ?? null;
