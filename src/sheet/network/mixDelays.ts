/**
 * Delays of microphones in the mix, from what pairs of them would have between their two. One that is delayed takes along
 * what it is aligned with, so only as many pairs can have theirs as join all of them: those that count most.
 */
import type { Ends } from './ends';

/** A pair's delay between its two: positive: a is delayed against b, ms. */
export interface DelayBetween extends Ends {
  delayMs: number;
  /** those with more are met first; of equal ones the first */
  weight: number;
}

export interface MixDelays {
  /** of each microphone, ms, 0 or more; 0 for at least one of those that hang together */
  delayMs: Float64Array;
  /** the pairs, by number, by which it was settled: they have what they would have */
  settledBy: number[];
}

/** @throws RangeError a pair's figures aren't finite */
export function solveMixDelays(microphones: number, pairs: readonly DelayBetween[]): MixDelays {
  if (pairs.some(({ delayMs, weight }) => !Number.isFinite(delayMs) || Number.isNaN(weight)))
    throw new RangeError('a delay that isn’t finite');
  const delayMs = new Float64Array(microphones);
  const group = Int32Array.from({ length: microphones }, (_, i) => i);
  const settledBy: number[] = [];
  const order = pairs
    .map((_, i) => i)
    .sort((p, q) => (pairs[q] as DelayBetween).weight - (pairs[p] as DelayBetween).weight);
  for (const i of order) {
    const { a, b, delayMs: between } = pairs[i] as DelayBetween;
    const [ofA, ofB] = [group[a] as number, group[b] as number];
    if (ofA === ofB) continue;
    settledBy.push(i);
    // all that hangs together with a is brought to where b's would have it
    const by = (delayMs[b] as number) + between - (delayMs[a] as number);
    for (let m = 0; m < microphones; m++)
      if (group[m] === ofA) {
        group[m] = ofB;
        delayMs[m] = (delayMs[m] as number) + by;
      }
  }
  const least = new Map<number, number>();
  for (let m = 0; m < microphones; m++)
    least.set(
      group[m] as number,
      Math.min(delayMs[m] as number, least.get(group[m] as number) ?? Number.POSITIVE_INFINITY),
    );
  for (let m = 0; m < microphones; m++) delayMs[m] = (delayMs[m] as number) - (least.get(group[m] as number) as number);
  return { delayMs, settledBy };
}
