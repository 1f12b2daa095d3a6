/** What one drum's readings say together: delays against its reference, contradictions, what to measure next. */
import { countedTaken, type KitSheet, knownUncertaintyMs, type Pair, type Taken } from '../document/model';
import { type Contradictions, findContradictions } from '../network/contradictions';
import { type Closure, type DelayAnswer, type DelayReading, solveDelays } from '../network/delays';
import type { Ends } from '../network/ends';
import { nextPair } from '../network/nextPair';
import type { SignedReading } from '../network/signs';
import { polarityNow } from '../pair/asItStands';

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
  open: ({ pairs: string[] } & Omit<Closure, 'readings'>)[];
  /** the pair of the sheet that would settle most; null: none would */
  next: { pair: string; why: 'again' | 'joins' | 'checks' } | null;
}

/** A reading that says nothing of its accuracy counts as this good, 90 %, ms: 7 cm of path. */
const UNKNOWN_UNCERTAINTY_MS = 0.2;
/** Nothing is known better than this, 90 %, ms: a third of a millimetre. */
const LEAST_UNCERTAINTY_MS = 0.001;
/** What a sure reading counts for at least: an agreement of 0 would be no reading. */
const LEAST_WEIGHT = 0.1;

/** A pair with a sure reading that was accepted. */
interface Read {
  pair: Pair;
  taken: Taken;
}

/** What one drum's accepted readings are, numbered for the network. */
export interface DrumReadings {
  /** pairs of that drum, read or not */
  planned: Pair[];
  /** microphones, by number */
  ids: string[];
  ends: (pair: Pair) => Ends;
  read: Read[];
  /** those with a delay, and as the network takes it */
  timed: (Read & DelayReading)[];
  /** number of the microphone that delays are told against; null: the drum has none */
  reference: number | null;
}

export function drumReadings(sheet: KitSheet, drum: string): DrumReadings {
  const planned = sheet.pairs.filter((pair) => pair.drum === drum);
  const ids = [...new Set(planned.flatMap(({ a, b }) => [a, b]))];
  const number = new Map(ids.map((id, i) => [id, i]));
  const ends = ({ a, b }: Pair): Ends => ({ a: number.get(a) as number, b: number.get(b) as number });
  const read = planned.flatMap((pair): Read[] => {
    const taken = countedTaken(pair);
    return taken?.sure ? [{ pair, taken }] : [];
  });
  const timed = read
    .filter(({ taken }) => taken.delayMs !== null)
    .map((one) => ({ ...one, ...ends(one.pair), ...delayOf(one.taken) }));
  const wanted = sheet.references.find((one) => one.drum === drum)?.microphone;
  const reference = (wanted === undefined ? undefined : number.get(wanted)) ?? (ids.length > 0 ? 0 : null);
  return { planned, ids, ends, read, timed, reference };
}

export function drumSystem(sheet: KitSheet, drum: string): DrumSystem {
  const { planned, ids, ends, read, timed, reference } = drumReadings(sheet, drum);
  const signed = read.filter(({ taken }) => taken.polarity !== null);
  const polarity = findContradictions(
    ids.length,
    signed.map((one) => ({ ...ends(one.pair), ...signOf(sheet, one) })),
  );
  const delays = solveDelays(ids.length, timed, reference ?? 0);
  const suspects = suspectPairs(signed, polarity, timed, delays);
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
    reference: reference === null ? null : (ids[reference] as string),
    delays: ids.map((microphone, i) => ({
      microphone,
      delayMs: delays.delayMs[i] as number | null,
      // while they contradict each other nobody knows how good they are
      uncertaintyMs: delays.open.length > 0 ? null : (delays.uncertaintyMs[i] as number | null),
    })),
    contradiction: idsOf(signed, polarity.cycle),
    suspects: [...new Set(suspects.map(({ id }) => id))],
    open: delays.open.map(({ readings, ...closure }) => ({ pairs: idsOf(timed, readings), ...closure })),
    next:
      next.candidate === null || next.why === null
        ? null
        : { pair: (candidates[next.candidate] as Pair).id, why: next.why },
  };
}

const pairOf = (read: readonly Read[], i: number): Pair => (read[i] as Read).pair;
const idsOf = (read: readonly Read[], numbers: readonly number[]): string[] => numbers.map((i) => pairOf(read, i).id);

const suspectPairs = (
  signed: readonly Read[],
  polarity: Contradictions,
  timed: readonly Read[],
  delays: DelayAnswer,
): Pair[] => [...polarity.suspects.map((i) => pairOf(signed, i)), ...delays.suspects.map((i) => pairOf(timed, i))];

const signOf = (sheet: KitSheet, { pair, taken }: Read): Pick<SignedReading, 'sign' | 'weight'> => ({
  sign: polarityNow(sheet, pair, taken) === 'inverted' ? -1 : 1,
  weight: Math.max(LEAST_WEIGHT, taken.agreement ?? LEAST_WEIGHT),
});

const delayOf = (taken: Taken): Pick<DelayReading, 'delayMs' | 'uncertaintyMs'> => ({
  delayMs: taken.delayMs as number,
  uncertaintyMs: Math.max(LEAST_UNCERTAINTY_MS, knownUncertaintyMs(taken) ?? UNKNOWN_UNCERTAINTY_MS),
});
