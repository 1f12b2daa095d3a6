/** What to measure next on one drum: the pair that would settle most. */
import type { DelayAnswer } from './delays';
import { type Ends, groupsOf } from './ends';

export interface NextPair {
  /** number of the candidate; null: none would settle anything */
  candidate: number | null;
  /** again: it is the likeliest wrong one; joins: nothing links these two yet; checks: they are linked, but nothing checks it */
  why: 'again' | 'joins' | 'checks' | null;
}

const NOTHING: NextPair = { candidate: null, why: null };

/**
 * A reading that is most likely wrong comes first; then a pair that joins what nothing joins yet, the largest groups
 * first; then the pair whose delay is least known of those that no other way checks. Equal ones: in the order given.
 * @param readings pairs that were read
 * @param suspects readings by number, the likeliest wrong one first
 */
export function nextPair(
  microphones: number,
  readings: readonly Ends[],
  suspects: readonly number[],
  delays: Pick<DelayAnswer, 'betweenMs'>,
  candidates: readonly Ends[],
): NextPair {
  const suspect = suspects[0] === undefined ? undefined : readings[suspects[0]];
  if (suspect) {
    const again = candidates.findIndex((one) => samePair(one, suspect));
    if (again >= 0) return { candidate: again, why: 'again' };
  }
  const { group, count } = groupsOf(microphones, readings);
  const size = new Array<number>(count).fill(0);
  for (const g of group) size[g] = (size[g] as number) + 1;
  const sizeOf = (microphone: number): number => size[group[microphone] as number] as number;
  const joins = best(candidates, ({ a, b }) => (group[a] === group[b] ? 0 : sizeOf(a) * sizeOf(b)));
  if (joins !== null) return { candidate: joins, why: 'joins' };
  const checks = best(candidates, (one) => {
    if (readings.some((reading) => samePair(reading, one))) return 0;
    return hasWayRound(microphones, readings, one) ? 0 : delays.betweenMs(one.a, one.b);
  });
  return checks === null ? NOTHING : { candidate: checks, why: 'checks' };
}

const samePair = (p: Ends, q: Ends): boolean => (p.a === q.a && p.b === q.b) || (p.a === q.b && p.b === q.a);

/** The candidate with the largest gain above 0. */
function best(candidates: readonly Ends[], gainOf: (one: Ends) => number): number | null {
  let found: number | null = null;
  let most = 0;
  for (const [i, one] of candidates.entries()) {
    const gain = gainOf(one);
    if (gain > most) [found, most] = [i, gain];
  }
  return found;
}

/** Two ways that share no reading: taking any one reading away leaves them joined. */
function hasWayRound(microphones: number, readings: readonly Ends[], { a, b }: Ends): boolean {
  return readings.every((_, without) => {
    const { group } = groupsOf(
      microphones,
      readings.filter((_, i) => i !== without),
    );
    return group[a] === group[b];
  });
}
