/**
 * The kit as one system, from its sheet: what each drum's readings say together, which switches the kit would have changed,
 * what to measure next. Readings count as their pair was accepted last, as the polarity switches stand now.
 */

import { countedTaken, type KitSheet, type Pair, switchesDiffer, type Taken } from '../document/model';
import { findContradictions } from '../network/contradictions';
import { solveDelays } from '../network/delays';
import { nextPair } from '../network/nextPair';
import type { SignedReading } from '../network/signs';
import { planSwitches, type SwitchPlan, type Wish } from '../network/switches';
import { type DrumGroup, groupOf, LEAST_GROUP } from './drumGroup';

/** Microphones and pairs by id. */
export interface DrumSystem {
  drum: string;
  /** delays are told against it; null: the drum has none */
  reference: string | null;
  /** null: no reading leads from the reference there */
  delays: { microphone: string; delayMs: number | null; uncertaintyMs: number | null }[];
  /** pairs whose polarities contradict each other, round a closed path; empty: none do */
  contradiction: string[];
  /** pairs whose reading is most likely wrong, by polarity, then by delay; the likeliest first */
  suspects: string[];
  /** triangles of pairs whose delays don't close within their uncertainty, the worst first */
  open: { pairs: string[]; errorMs: number; uncertaintyMs: number }[];
  /** the pair of the sheet that would settle most; null: none would */
  next: { pair: string; why: 'again' | 'joins' | 'checks' } | null;
}

export interface SwitchWishes {
  change: string[];
  unmet: string[];
  ignored: string[];
}

export interface KitSystem {
  drums: DrumSystem[];
  /**
   * ids of microphones whose switch to change, and of pairs whose wish can't be met or wasn't asked; null: readings of all
   * drums hold together more microphones than can be tried
   */
  switches: SwitchWishes | null;
  /** of drums with three microphones of their own or more */
  groups: DrumGroup[];
}

/** A reading that says nothing of its accuracy counts as this good, 90 %, ms: 7 cm of path. */
const UNKNOWN_UNCERTAINTY_MS = 0.2;
/** Nothing is known better than this, 90 %, ms: a third of a millimetre. */
const LEAST_UNCERTAINTY_MS = 0.001;
/** What a sure reading counts for at least: an agreement of 0 would be no reading. */
const LEAST_WEIGHT = 0.1;

/** @throws RangeError more microphones on one drum than signs.ts can compare, or ids that aren't there */
export function kitSystem(sheet: KitSheet): KitSystem {
  const drums = [...new Set(sheet.pairs.map(({ drum }) => drum))];
  return {
    drums: drums.map((drum) => drumSystem(sheet, drum)),
    switches: switchesOf(sheet),
    groups: drums.map((drum) => groupOf(sheet, drum)).filter(({ microphones }) => microphones.length >= LEAST_GROUP),
  };
}

function drumSystem(sheet: KitSheet, drum: string): DrumSystem {
  const planned = sheet.pairs.filter((pair) => pair.drum === drum);
  const ids = [...new Set(planned.flatMap(({ a, b }) => [a, b]))];
  const number = new Map(ids.map((id, i) => [id, i]));
  const ends = ({ a, b }: Pair): { a: number; b: number } => ({
    a: number.get(a) as number,
    b: number.get(b) as number,
  });
  const read = planned.flatMap((pair) => {
    const taken = countedTaken(pair);
    return taken?.sure ? [{ pair, taken }] : [];
  });
  const signed = read.filter(({ taken }) => taken.polarity !== null);
  const timed = read.filter(({ taken }) => taken.delayMs !== null);
  const polarity = findContradictions(
    ids.length,
    signed.map(
      ({ pair, taken }): SignedReading => ({
        ...ends(pair),
        sign: signNow(sheet, pair, taken),
        weight: weightOf(taken),
      }),
    ),
  );
  const wanted = sheet.references.find((one) => one.drum === drum)?.microphone;
  const reference = wanted !== undefined && number.has(wanted) ? wanted : (ids[0] ?? null);
  const delays = solveDelays(
    ids.length,
    timed.map(({ pair, taken }) => ({
      ...ends(pair),
      delayMs: taken.delayMs as number,
      uncertaintyMs: Math.max(LEAST_UNCERTAINTY_MS, taken.uncertaintyMs || UNKNOWN_UNCERTAINTY_MS),
    })),
    reference === null ? 0 : (number.get(reference) as number),
  );
  const suspects = [
    ...polarity.suspects.map((i) => signed[i]?.pair as Pair),
    ...delays.suspects.map((i) => timed[i]?.pair as Pair),
  ];
  // what was accepted as unsure would be so again
  const candidates = planned.filter((pair) => countedTaken(pair)?.sure !== false);
  const next = nextPair(
    ids.length,
    read.map(({ pair }) => ends(pair)),
    suspects.map((pair) => read.findIndex((one) => one.pair === pair)),
    delays,
    candidates.map(ends),
  );
  return {
    drum,
    reference,
    delays: ids.map((microphone, i) => ({
      microphone,
      delayMs: delays.delayMs[i] as number | null,
      // while they contradict each other nobody knows how good they are
      uncertaintyMs: delays.open.length > 0 ? null : (delays.uncertaintyMs[i] as number | null),
    })),
    contradiction: polarity.cycle.map((i) => pairId(signed[i])),
    suspects: [...new Set(suspects.map(({ id }) => id))],
    open: delays.open.map(({ readings, ...closure }) => ({
      pairs: readings.map((i) => pairId(timed[i])),
      ...closure,
    })),
    next:
      next.candidate === null || next.why === null
        ? null
        : { pair: (candidates[next.candidate] as Pair).id, why: next.why },
  };
}

const pairId = (one: { pair: Pair } | undefined): string => (one as { pair: Pair }).pair.id;

const weightOf = ({ agreement }: Taken): number => Math.max(LEAST_WEIGHT, agreement ?? LEAST_WEIGHT);

/** The polarity as read, as the two switches stand now. */
const signNow = (sheet: KitSheet, pair: Pair, taken: Taken): 1 | -1 =>
  (taken.polarity === 'inverted') === switchesDiffer(sheet, pair, taken) ? 1 : -1;

/**
 * What each pair wishes for: that the two come out fuller in the drum's own low band, where the meter could say so.
 * Louder wishes count more: by how many dB.
 */
function switchesOf(sheet: KitSheet): SwitchWishes | null {
  const number = new Map(sheet.microphones.map(({ id }, i) => [id, i]));
  const asking = sheet.pairs.flatMap((pair) => {
    const taken = countedTaken(pair);
    if (taken && pair.done?.leftOnPurpose) return [{ pair, wish: heldWish(sheet, pair, taken, number) }];
    if (!taken?.fuller || taken.fuller === 'either') return [];
    return [{ pair, wish: wishOf(sheet, pair, taken, number) }];
  });
  const follows = new Map(sheet.follows.map(({ microphone, drum }) => [number.get(microphone) as number, drum]));
  const plan = planOf(
    sheet.microphones.length,
    asking.map(({ wish }) => wish),
    follows,
  );
  if (plan === null) return null;
  const pairIds = (wishes: readonly number[]): string[] => wishes.map((i) => pairId(asking[i]));
  return {
    change: plan.change.map((i) => sheet.microphones[i]?.id as string),
    unmet: pairIds(plan.unmet),
    ignored: pairIds(plan.ignored.filter((i) => !asking[i]?.pair.done?.leftOnPurpose)),
  };
}

/** What each drum says stands even where the whole kit is too much to try. */
function planOf(...given: Parameters<typeof planSwitches>): SwitchPlan | null {
  try {
    return planSwitches(...given);
  } catch (error) {
    if (error instanceof RangeError) return null;
    throw error;
  }
}

/** What was left on purpose stays as it was when it was accepted: as good a result as any, and dearer than any wish, dB. */
const HELD_WEIGHT = 1000;

function heldWish(sheet: KitSheet, pair: Pair, taken: Taken, number: ReadonlyMap<string, number>): Wish {
  const turn = switchesDiffer(sheet, pair, taken) ? -1 : 1;
  const [a, b] = [number.get(pair.a) as number, number.get(pair.b) as number];
  return { drum: pair.drum, a, b, turn, weight: HELD_WEIGHT };
}

function wishOf(sheet: KitSheet, pair: Pair, taken: Taken, number: ReadonlyMap<string, number>): Wish {
  const same: Taken = { ...taken, polarity: taken.fuller === 'as-is' ? 'same' : 'inverted' };
  return {
    drum: pair.drum,
    a: number.get(pair.a) as number,
    b: number.get(pair.b) as number,
    turn: signNow(sheet, pair, same),
    weight: Math.max(LEAST_WEIGHT, Math.abs(taken.fullerDb ?? 0)),
  };
}
