/**
 * What the kit as a whole has done: which polarity switches, which delays, and what each pair gets by them. Both are chosen
 * together, by what the pairs lose against what each would have by itself (kitLoss.ts); leaving everything is one of the choices.
 */
import type { Alternative } from '../../advice/plan/alternatives';
import { countedTaken, type KitSheet, type Pair } from '../document/model';
import { referencesOf } from '../document/references';
import { settle } from '../network/settle';
import { inTheMixOf, type PairPlan, planOf, sameAction, withDelay } from '../pair/pairPlan';
import { type Because, whyNot } from './kitBecause';
import { type KitDelay, kitDelays } from './kitDelays';
import { type Asking, followsOther, kitPair, restPair } from './kitLoss';

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
  /** why it gets something else than its own; null: it has its own */
  because: Because | null;
}

/** What is lost least together; of two sets that come to the same, the one that leaves the drums' references. */
export function kitChoice(sheet: KitSheet): KitChoice {
  const place = new Map(sheet.microphones.map(({ id }, i) => [id, i]));
  const ends = ({ a, b }: Pair) => ({ a: place.get(a) as number, b: place.get(b) as number });
  const asking = sheet.pairs.flatMap((pair): Asking[] => {
    const taken = countedTaken(pair);
    const plan = taken && planOf(sheet, pair, taken);
    const own = plan && inTheMixOf(plan);
    return plan && own ? [{ pair, plan, own }] : [];
  });
  const rest = sheet.pairs.filter(
    ({ id, acceptedAt }) => acceptedAt !== null && !asking.some(({ pair }) => pair.id === id),
  );
  const pairs = [
    ...asking.map((one) => kitPair(one, ends(one.pair), followsOther(sheet, one.pair) === null)),
    ...rest.map((pair) => restPair(ends(pair))),
  ];
  const references = new Set(referencesOf(sheet).flatMap((id) => place.get(id) ?? []));
  const { together, setting } = settle(sheet.microphones.length, pairs, references);
  const invert = sheet.microphones.flatMap(({ id }, m) => (setting.signs[m] === -1 ? [id] : []));
  const got = asking.map(({ pair, plan, own }, i): PairInKit => {
    const { turned, delayMs } = together.wayOf(i, setting);
    const gets = withDelay(plan, own, turned, delayMs);
    const has = gets === own || sameAction(gets, own);
    const because = has
      ? null
      : whyNot(sheet, { asking, rest, invert, own, gets, pair, against: together.against(i, setting) });
    return { pair: pair.id, plan, own, gets, because };
  });
  return { invert, delays: kitDelays(sheet, setting.delayMs, got), pairs: got };
}
