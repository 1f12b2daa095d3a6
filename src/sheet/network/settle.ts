/** Switches and delays of the whole kit: several ways to begin, each carried on until nothing is gained; the best of them. */
import { setsOf } from './ends';
import { solveMixDelays } from './mixDelays';
import { type Preference, planSwitches } from './switches';
import { type KitPair, type Setting, Together, type Way } from './together';

/** A pair counts for at least so much, dB: one of 0 would be none. */
const LEAST_WEIGHT_DB = 1e-3;
/** What stays as it stands comes before any gain, for one of the beginnings. */
const STILL_FIRST_DB = 1000;

/**
 * Never worse than leaving everything, by what the pairs lose together. @param references the last to be turned
 * @returns each microphone's delay 0 or more, 0 for one at least of those that hang together
 * @throws RangeError as planSwitches
 */
export function settle(
  microphones: number,
  pairs: readonly KitPair[],
  references: ReadonlySet<number>,
): { together: Together; setting: Setting } {
  const together = new Together(microphones, pairs, references);
  const asIs = together.asIs();
  const switched = withSwitches(pairs, references, asIs);
  // without a delay the best switches are all there is to it
  if (pairs.every(({ ways }) => ways.every(({ delayMs }) => delayMs === 0))) return { together, setting: switched };
  const better = (one: Setting, other: Setting): Setting => (together.total(one) < together.total(other) ? one : other);
  let found = asIs;
  for (const beginning of beginningsOf(pairs, references, switched, asIs)) {
    found = better(together.improved(beginning), found);
    if (pairs.every((_, i) => together.lossOf(i, found) === 0)) break;
  }
  for (const one of everyOneOfFew(pairs, asIs)) found = better(one, found);
  // all switches at once, for the delays that are really set
  const again = withSwitches(pairs, references, found);
  const best = better(again, found) === again ? together.improved(again) : found;
  return { together, setting: { ...best, delayMs: fromNothing(best.delayMs, pairs) } };
}

/** As each would have it, as the switches alone would have it, as it stands. */
function* beginningsOf(
  pairs: readonly KitPair[],
  references: ReadonlySet<number>,
  switched: Setting,
  asIs: Setting,
): Generator<Setting> {
  const whole = { ...asIs, signs: switchesOf(asIs.signs.length, pairs, references, ownOrOther) };
  for (const still of [STILL_FIRST_DB, 0]) yield { ...whole, delayMs: delaysOf(whole, pairs, still) };
  yield { ...switched, delayMs: delaysOf(switched, pairs, STILL_FIRST_DB) };
  yield switched;
  yield asIs;
}

/** So few microphones can be tried out: every set of switches, with every tree of the pairs' own delays. */
const FEW = 3;

function* everyOneOfFew(pairs: readonly KitPair[], asIs: Setting): Generator<Setting> {
  const linked = [...new Set(pairs.flatMap(({ a, b }) => [a, b]))];
  if (linked.length > FEW) return;
  const [first, ...others] = linked;
  if (first === undefined) return;
  for (const delayMs of treesOf(pairs, new Map([[first, 0]]), others))
    for (let turns = 0; turns < 2 ** linked.length; turns++) {
      const signs = asIs.signs.slice();
      linked.forEach((m, i) => {
        signs[m] = (turns >> i) & 1 ? -1 : 1;
      });
      yield { signs, delayMs: asIs.delayMs.map((_, m) => delayMs.get(m) ?? 0) };
    }
}

/** Every way to set the `open` microphones' delays one after the other, each by a pair with one that is set. */
function* treesOf(
  pairs: readonly KitPair[],
  set: ReadonlyMap<number, number>,
  open: readonly number[],
): Generator<ReadonlyMap<number, number>> {
  if (open.length === 0) yield set;
  for (const m of open)
    for (const { a, b, ways } of pairs) {
      const from = a === m ? set.get(b) : b === m ? set.get(a) : undefined;
      if (from === undefined) continue;
      for (const by of new Set([0, ...ways.map(({ delayMs }) => delayMs)]))
        yield* treesOf(
          pairs,
          new Map([...set, [m, from + (a === m ? by : -by)]]),
          open.filter((one) => one !== m),
        );
    }
}

/** What a pair would lose the one way and the other. */
type Losses = (pair: KitPair) => readonly [asIs: number, turned: number];

function switchesOf(microphones: number, pairs: readonly KitPair[], references: ReadonlySet<number>, losses: Losses) {
  const preferences = pairs.flatMap((pair): Preference[] => {
    if (!pair.asked) return [];
    const [asIs, turned] = losses(pair);
    const weight = Math.max(LEAST_WEIGHT_DB, Math.abs(asIs - turned));
    return [{ drum: '', a: pair.a, b: pair.b, turn: turned < asIs ? -1 : 1, weight }];
  });
  const { change } = planSwitches(microphones, preferences, new Map(), references);
  return Int8Array.from({ length: microphones }, (_, m) => (change.includes(m) ? -1 : 1));
}

/** The best switches for delays that are set. */
function withSwitches(pairs: readonly KitPair[], references: ReadonlySet<number>, { delayMs }: Setting): Setting {
  const losses: Losses = ({ a, b, lossDb }) => {
    const by = (delayMs[a] as number) - (delayMs[b] as number);
    return [lossDb(false, by), lossDb(true, by)];
  };
  return { signs: switchesOf(delayMs.length, pairs, references, losses), delayMs };
}

/** As if every pair could have its delay. */
const ownOrOther: Losses = ({ ways, lossDb }) => {
  const least = (turned: boolean): number =>
    Math.min(...ways.filter((way) => way.turned === turned).map((way) => lossDb(turned, way.delayMs)));
  return [least(false), least(true)];
};

/** For switches that are set: of each pair the delay that goes with them, as many as can be met. */
function delaysOf({ signs }: Setting, pairs: readonly KitPair[], stillDb: number): Float64Array {
  const between = pairs.map(({ a, b, ways, lossDb }) => {
    const turned = signs[a] !== signs[b];
    const lossOf = (way: Way): number => lossDb(turned, way.delayMs);
    const [best] = ways.filter((way) => way.turned === turned).sort((p, q) => lossOf(p) - lossOf(q));
    if (best === undefined || best.delayMs === 0) return { a, b, delayMs: 0, weight: stillDb };
    return { a, b, delayMs: best.delayMs, weight: lossDb(turned, 0) - lossOf(best) };
  });
  return solveMixDelays(signs.length, between).delayMs;
}

/** The least of those that hang together is not delayed. */
function fromNothing(delayMs: Float64Array, pairs: readonly KitPair[]): Float64Array {
  const from = delayMs.slice();
  for (const who of setsOf(delayMs.length, pairs)) {
    const least = Math.min(...delayMs.filter((_, m) => who[m] === 1));
    for (let m = 0; m < from.length; m++)
      if (who[m] === 1) from[m] = Math.round(((from[m] as number) - least) * 1e6) / 1e6;
  }
  return from;
}
