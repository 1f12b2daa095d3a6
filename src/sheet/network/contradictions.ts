/** Polarity readings of one drum that can't all be true, and which of them is most likely wrong. */
import { EQUAL_WEIGHT, leastAgainst, type SignedReading } from './signs';

export interface Contradictions {
  /** no contradiction: every cycle's product is positive */
  balanced: boolean;
  /** readings by number, the likeliest wrong one first; none where all can be true */
  suspects: number[];
  /** three readings or more that contradict each other, round a closed path, the shortest there is; empty where none do */
  cycle: number[];
}

/**
 * The likeliest wrong reading is the one whose being wrong asks for the least other weight to be wrong too; of equal ones
 * the lighter. In a lone triangle of equal weights all three are as likely: a fourth reading is needed.
 * @throws RangeError as leastAgainst
 */
export function findContradictions(microphones: number, readings: readonly SignedReading[]): Contradictions {
  const { against, costIfWrong } = leastAgainst(new Int8Array(microphones).fill(1), readings);
  if (against <= EQUAL_WEIGHT) return { balanced: true, suspects: [], cycle: [] };
  const cycle = shortestContradiction(microphones, readings);
  const suspects = readings
    .map((_, i) => i)
    // a reading on no cycle can't be contradicted: assuming it wrong only adds its own weight
    .filter(
      (i) =>
        Math.abs((costIfWrong[i] as number) - against - (readings[i] as SignedReading).weight) > EQUAL_WEIGHT ||
        cycle.includes(i),
    )
    .sort((p, q) => {
      const byCost = (costIfWrong[p] as number) - (costIfWrong[q] as number);
      if (Math.abs(byCost) > EQUAL_WEIGHT) return byCost;
      return (readings[p] as SignedReading).weight - (readings[q] as SignedReading).weight;
    });
  return { balanced: false, suspects, cycle };
}

/** Breadth first over (microphone, sign so far): back at the start with −1 is a contradiction. Parallel readings count too. */
function shortestContradiction(microphones: number, readings: readonly SignedReading[]): number[] {
  let shortest: number[] = [];
  for (let start = 0; start < microphones; start++) {
    const from = new Map<number, { state: number; reading: number } | null>([[2 * start, null]]);
    const waiting = [2 * start];
    for (let next = 0; next < waiting.length; next++) {
      const state = waiting[next] as number;
      const at = state >> 1;
      for (const [i, { a, b, sign }] of readings.entries()) {
        if (a !== at && b !== at) continue;
        const to = 2 * (a === at ? b : a) + (sign < 0 ? (state & 1) ^ 1 : state & 1);
        if (from.has(to)) continue;
        from.set(to, { state, reading: i });
        waiting.push(to);
      }
    }
    const path: number[] = [];
    for (let step = from.get(2 * start + 1); step; step = from.get(step.state)) path.unshift(step.reading);
    // a path that goes out and comes back over one reading is longer than the cycle within it
    if (path.length > 0 && (shortest.length === 0 || path.length < shortest.length)) shortest = path;
  }
  return shortest;
}
