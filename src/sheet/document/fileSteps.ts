/** A sheet of an earlier version, brought up to the next one. What it didn't keep isn't known. */
import type { SumLevels, Timing } from '../../advice/plan/alternatives';
import { sumDbFromCoherency } from '../../reading/acoustics';
import { BANDS, LOW_OCTAVES_HZ } from '../../reading/bands';
import type { Kit1, Kit2, Kit3, Kit4 } from './fileSchemas';
import type { KitSheet, Taken } from './model';

type Pair2 = Kit2['pairs'][number];
type Taken1 = NonNullable<Kit1['pairs'][number]['before']>;
type Pair3 = Kit3['pairs'][number];
type Taken3 = NonNullable<Pair3['before']>;
type Taken2 = NonNullable<Pair2['before']>;

export function fromVersion1(old: Kit1): Kit2 {
  const known = (one: Taken1 | null): Taken2 | null =>
    one && { ...one, octaveCoherency: LOW_OCTAVES_HZ.map(() => null), sumDb: null };
  const pairs = old.pairs.map((one) => ({
    ...one,
    before: known(one.before),
    after: known(one.after),
    done: one.done && { ...one.done, inverted: one.done.inverted ? ('b' as const) : null },
    checked: null,
  }));
  return { ...old, pairs };
}

export function fromVersion2(old: Kit2): Kit3 {
  return {
    ...old,
    microphones: old.microphones.map(({ voicing, ...one }) => ({ ...one, contour: voicing })),
    pairs: old.pairs.map((one) => ({ ...one, before: known(one.before), after: known(one.after), done: doneOf(one) })),
  };
}

/** Beside the delays that were offered then, nobody knows what one would gain. */
export function fromVersion3(old: Kit3): Kit4 {
  const with4 = (one: Taken3 | null): Taken | null => one && { ...one, sumByDelay: null };
  return {
    ...old,
    pairs: old.pairs.map((one) => ({ ...one, before: with4(one.before), after: with4(one.after) })),
  };
}

/** There was no drawing: everything stands where it usually does. */
export function fromVersion4(old: Kit4): KitSheet {
  return { ...old, microphones: old.microphones.map((one) => ({ ...one, place: null })), drumPlaces: [] };
}

/** What the meter recommended wasn't kept, nor what A+B came to anywhere but in the drum's low octave. */
function known(old: Taken2 | null): Taken3 | null {
  if (old === null) return null;
  const { take, ...rest } = old;
  return { ...rest, run: take, timings: presentOf(old), plan: null };
}

function presentOf({ lowCoherency }: Taken2): Timing[] {
  if (lowCoherency === null) return [];
  const levels = (re: number): SumLevels => ({
    lowDb: sumDbFromCoherency(re),
    allDb: null,
    bandsDb: BANDS.map(() => null),
  });
  return [{ delayMs: null, moveCm: null, asIs: levels(lowCoherency), inverted: levels(-lowCoherency) }];
}

/**
 * The delay was kept with B positive, and without the polarity that belongs to it: it brought the first pushes together, so
 * that is the arrival's.
 */
function doneOf({ done, before, after }: Pair2): Pair3['done'] {
  if (done === null) return null;
  const { delayLaterMs, ...rest } = done;
  const read = after ?? before;
  const invertB = (read?.sure ?? false) && read?.polarity === 'inverted';
  return { ...rest, later: delayLaterMs ? { invertB, delayMs: -delayLaterMs } : null };
}
