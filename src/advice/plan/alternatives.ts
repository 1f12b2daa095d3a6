/**
 * What can be done about a pair, as wholes: switch, move and delay together, each with what A+B gains by it. Plain data and
 * arithmetic, so that a sheet can keep it and work it out anew for other switches.
 *
 * Levels are dB of A+B re the power sum of A and B (what they would make if unrelated), with A and B brought to equal level
 * in the band; gains are the difference of two of them, so the reference drops out. Delays are ms, positive: A is delayed,
 * negative: B. Moves are cm, positive: B towards the drum. Polarity counts from the two switches as they stood at the reading.
 */

/** A+B in the drum's low octave, in 30 Hz–10 kHz, and in each of BANDS; null where the coherence doesn't carry it. */
export interface SumLevels {
  lowDb: number | null;
  allDb: number | null;
  bandsDb: (number | null)[];
}

/** One way for the two to lie in time, and what A+B comes to then, with either polarity of B. */
export interface Timing {
  /** null: none; never together with a move */
  delayMs: number | null;
  moveCm: number | null;
  asIs: SumLevels;
  inverted: SumLevels;
}

/** What to do, all of it together. */
export interface Action {
  /** one of the two switches is pressed: B's, for the meter */
  invertB: boolean;
  delayMs: number | null;
  moveCm: number | null;
}

/** An action and what it gains over the present, dB; null where that isn't known. The present itself gains 0. */
export interface Alternative extends Action, SumLevels {}

/** a gain that is worth a switch, a move or a delay, dB */
export const LEAST_GAIN_DB = 0.5;
/** so much worse is as good, dB: what a gain can't be told to */
export const AS_GOOD_DB = 0.3;
/** what was recommended before stays while nothing gains so much more, dB */
export const STANDS_DB = 0.5;
/** what a move gains in one of the upper bands is worth it from here on, dB, where nothing is lost elsewhere */
export const CLEARER_DB = 1;
/** place in BANDS from which a band is an upper one: 800 Hz */
const UPPER_BANDS = 2;

const isPresent = ({ invertB, delayMs, moveCm }: Action): boolean => !invertB && delayMs === null && moveCm === null;
const minus = (x: number | null, y: number | null): number | null => (x === null || y === null ? null : x - y);

/**
 * Every timing with either polarity, and what each gains over the present.
 * @param timings the present first
 */
export function alternativesOf(timings: readonly Timing[]): Alternative[] {
  const present = timings[0]?.asIs;
  if (present === undefined) return [];
  return timings.flatMap(({ delayMs, moveCm, asIs, inverted }) =>
    [false, true].map((invertB): Alternative => {
      const action = { invertB, delayMs, moveCm };
      // nothing done is nothing gained, known or not
      if (isPresent(action)) return { ...action, lowDb: 0, allDb: 0, bandsDb: present.bandsDb.map(() => 0) };
      const levels = invertB ? inverted : asIs;
      return {
        ...action,
        lowDb: minus(levels.lowDb, present.lowDb),
        allDb: minus(levels.allDb, present.allDb),
        bandsDb: levels.bandsDb.map((db, i) => minus(db, present.bandsDb[i] ?? null)),
      };
    }),
  );
}

/** The same timings once one of the pair's two switches stands the other way. */
export const turned = (timings: readonly Timing[]): Timing[] =>
  timings.map((one) => ({ ...one, asIs: one.inverted, inverted: one.asIs }));

/** What an alternative gains for certain, dB: the smaller of its two figures; null: one of them isn't known. */
export const gainDb = ({ lowDb, allDb }: Alternative): number | null =>
  lowDb === null || allDb === null ? null : Math.min(lowDb, allDb);

/**
 * The one to recommend, the rule in full:
 * 1. An alternative one of whose two gains isn't known, or is a loss of more than AS_GOOD_DB, is out; the present is always in.
 * 2. Worth doing is what gains LEAST_GAIN_DB or more in both the drum's low octave and over all. A switch costs nothing to
 *    press: it comes first. A move or a delay has to gain LEAST_GAIN_DB more than the best that goes without.
 * 3. A move is worth it too where it is as good in both, and gains CLEARER_DB in an upper band and loses as much in none.
 * 4. Of those that are as good as the best of them, a move comes before a delay (it also helps what is recorded), and the
 *    earlier in the list before the later.
 * 5. What was recommended before stays, unless it is out, or the best gains STANDS_DB more.
 * @param alternatives as alternativesOf gives them; not empty
 * @param standing what was recommended before; null: nothing
 */
export function recommendedOf(alternatives: readonly Alternative[], standing: Action | null = null): Alternative {
  const best = bestOf(alternatives);
  const before = standing && alternatives.find((one) => isSame(one, standing));
  const gain = before && gainDb(before);
  return before && gain != null && gain >= -AS_GOOD_DB && gain >= (gainDb(best) as number) - STANDS_DB ? before : best;
}

export const isSame = (x: Action, y: Action): boolean =>
  x.invertB === y.invertB && x.delayMs === y.delayMs && x.moveCm === y.moveCm;

function bestOf(alternatives: readonly Alternative[]): Alternative {
  const known = alternatives.filter((one) => (gainDb(one) ?? Number.NEGATIVE_INFINITY) >= -AS_GOOD_DB);
  const gain = (one: Alternative): number => gainDb(one) as number;
  const still = known.filter(({ delayMs, moveCm }) => delayMs === null && moveCm === null);
  const present = alternatives.find(isPresent) as Alternative;
  const switched = still.find(({ invertB }) => invertB);
  const plain = switched && gain(switched) >= LEAST_GAIN_DB ? switched : present;
  const timed = known.filter(
    (one) =>
      !still.includes(one) &&
      (gain(one) >= gain(plain) + LEAST_GAIN_DB || (one.moveCm !== null && clearer(one, plain))),
  );
  if (timed.length === 0) return plain;
  const best = Math.max(...timed.map(gain));
  const asGood = timed.filter((one) => gain(one) >= best - AS_GOOD_DB);
  return asGood.find(({ moveCm }) => moveCm !== null) ?? (asGood[0] as Alternative);
}

/** As good in both figures, and an upper band clears up. */
function clearer(one: Alternative, than: Alternative): boolean {
  if ((gainDb(one) as number) < (gainDb(than) as number) - AS_GOOD_DB) return false;
  const steps = one.bandsDb.map((db, i) => minus(db, than.bandsDb[i] ?? null) ?? 0);
  return Math.min(...steps) > -CLEARER_DB && Math.max(...steps.slice(UPPER_BANDS)) >= CLEARER_DB;
}
