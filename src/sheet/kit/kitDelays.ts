/** Delays of the whole kit's microphones in the mix: what was aligned with a delayed one goes along by the same. */
import { type Alternative, gainDb } from '../../advice/plan/alternatives';
import type { KitSheet, Pair } from '../document/model';
import { type DelayBetween, solveMixDelays } from '../network/mixDelays';
import { wayBetween } from '../network/ways';
import type { PairPlan } from '../pair/pairPlan';

export interface KitDelay {
  /** id */
  microphone: string;
  /** above 0 */
  delayMs: number;
  /** ids of the pairs for whose sake; empty: it only goes along */
  pairs: string[];
}

interface Given {
  pair: Pair;
  plan: PairPlan;
  /** with the switch that the pair gets */
  gets: Alternative;
}

/** Nearer is the same, ms: a sample at 48 kHz. */
const SAME_MS = 0.02;
/** What counts before any gain: left on purpose, decided on, aligned as it stands; last what nothing is known of. */
const WEIGHT = { left: 4000, chosen: 3000, still: 2000, unknown: -1 };

/** @param given what each pair would have; @returns settled: what each gets in the end, in the same order */
export function settleDelays(
  sheet: KitSheet,
  given: readonly Given[],
): { delays: KitDelay[]; settled: { gets: Alternative; because: { code: 'delay'; pair: string } | null }[] } {
  const place = new Map(sheet.microphones.map(({ id }, i) => [id, i]));
  const between = (pair: Pair, delayMs: number, weight: number): DelayBetween => ({
    a: place.get(pair.a) as number,
    b: place.get(pair.b) as number,
    delayMs,
    weight,
  });
  const asking = given.map((one) => between(one.pair, one.gets.delayMs ?? 0, weightOf(one)));
  // of the others nothing is known but that they were recorded as they stand
  const rest = sheet.pairs.filter(
    ({ acceptedAt, id }) => acceptedAt !== null && !given.some(({ pair }) => pair.id === id),
  );
  const edges = [...asking, ...rest.map((pair) => between(pair, 0, WEIGHT.unknown))];
  const { delayMs, settledBy } = solveMixDelays(sheet.microphones.length, edges);
  const inPlace = settledBy.filter((i) => i < given.length);
  const settled = given.map((one, i) => {
    if (inPlace.includes(i)) return { gets: one.gets, because: null };
    const { a, b } = edges[i] as DelayBetween;
    const is = (delayMs[a] as number) - (delayMs[b] as number);
    if (Math.abs(is - (one.gets.delayMs ?? 0)) < SAME_MS) return { gets: one.gets, because: null };
    const way = wayBetween(
      settledBy.map((k) => edges[k] as DelayBetween),
      a,
      b,
    );
    const by = (way ?? []).map((k) => given[settledBy[k] as number]).find((it) => it && it.gets.delayMs !== null);
    return { gets: withDelay(one, is), because: by ? { code: 'delay' as const, pair: by.pair.id } : null };
  });
  const delays = sheet.microphones.flatMap(({ id }, m): KitDelay[] => {
    const own = delayMs[m] as number;
    if (own < SAME_MS) return [];
    const pairs = given.filter(({ pair }, i) => {
      const ms = settled[i]?.gets.delayMs ?? null;
      return inPlace.includes(i) && ms !== null && (ms > 0 ? pair.a : pair.b) === id;
    });
    return [{ microphone: id, delayMs: own, pairs: pairs.map(({ pair }) => pair.id) }];
  });
  return { delays, settled };
}

/** A delay counts by what it gains. */
function weightOf({ plan, gets }: Given): number {
  if (plan.leftOnPurpose) return WEIGHT.left;
  if (gets.delayMs === null) return WEIGHT.still;
  if (plan.chosen?.delayMs === gets.delayMs) return WEIGHT.chosen;
  const without = plan.alternatives.find(
    (one) => one.invertB === gets.invertB && one.delayMs === null && one.moveCm === null,
  );
  const [gain, still] = [gainDb(gets), without ? gainDb(without) : null];
  return gain === null || still === null ? 0 : Math.max(0, gain - still);
}

/** The pair with another delay than its own; only that without any may be known. */
function withDelay({ plan, gets }: Given, delayMs: number): Alternative {
  const known = plan.alternatives.find(
    (one) => one.invertB === gets.invertB && one.moveCm === null && Math.abs((one.delayMs ?? 0) - delayMs) < SAME_MS,
  );
  if (known) return known;
  const none = Math.abs(delayMs) < SAME_MS ? null : delayMs;
  return { ...gets, delayMs: none, lowDb: null, allDb: null, bandsDb: gets.bandsDb.map(() => null) };
}
