/**
 * Which signs (±1) of the microphones contradict the readings least: the question behind "can these readings all be true?"
 * and behind "which switches have to be touched?". A set of readings can all be true exactly if every cycle's product is
 * positive, which is if the microphones fall into two camps, same within and inverted across: F. Harary, "On the notion of
 * balance of a signed graph", Michigan Math. J. 2, 1953. Exact: all assignments are tried.
 */
import { checkEnds, type Ends, groupsOf } from './ends';
import { MOST_TOGETHER, TooManyTogether } from './tooManyTogether';

/** A reading between two microphones: `sign` 1 = same, −1 = inverted; `weight` > 0: the cost of going against it. */
export interface SignedReading extends Ends {
  sign: 1 | -1;
  weight: number;
}

export interface SignAnswer {
  /** ±1 for each microphone; where readings leave a choice, the nearest to the present signs */
  signs: Int8Array;
  /** weight of the readings that these signs go against; 0: all can be true */
  against: number;
  /** microphones whose sign isn't the present one */
  touched: number;
  /**
   * for each reading the least weight that must be given up if this one is among the wrong ones: the lower, the likelier
   * is it wrong
   */
  costIfWrong: Float64Array;
}

/** Sums of the same weights in another order differ by rounding. */
export const EQUAL_WEIGHT = 1e-9;

/**
 * @param present ±1 for each microphone
 * @param signsOnly costs aren't asked for: they are infinite, and it takes a fraction of the time
 * @throws RangeError as checkEnds
 * @throws TooManyTogether more than MOST_TOGETHER microphones in one group
 */
export function leastAgainst(
  present: ArrayLike<number>,
  readings: readonly SignedReading[],
  signsOnly = false,
): SignAnswer {
  const microphones = present.length;
  checkEnds(microphones, readings);
  const signs = Int8Array.from({ length: microphones }, (_, i) => present[i] as number);
  const costIfWrong = new Float64Array(readings.length).fill(Number.POSITIVE_INFINITY);
  const { group, count } = groupsOf(microphones, readings);
  const groups = Array.from({ length: count }, (_, g) => {
    const members = Array.from({ length: microphones }, (_, i) => i).filter((i) => group[i] === g);
    const own = readings.map((_, i) => i).filter((i) => group[(readings[i] as SignedReading).a] === g);
    if (members.length > MOST_TOGETHER) throw new TooManyTogether(members.length);
    return settleGroup(members, own, readings, signs, signsOnly ? null : costIfWrong);
  });
  const against = groups.reduce((sum, cost) => sum + cost, 0);
  for (const [g, cost] of groups.entries()) {
    // the other groups' wrong readings stay wrong whatever is assumed here
    for (const [i, reading] of readings.entries())
      if (group[reading.a] === g) costIfWrong[i] = (costIfWrong[i] as number) + against - cost;
  }
  let touched = 0;
  for (let i = 0; i < microphones; i++) if (signs[i] !== present[i]) touched++;
  return { signs, against, touched, costIfWrong };
}

/** An incremental sum is worked out anew where it may matter by less than this. */
const DOUBT = 1e-6;

/**
 * Tries every assignment of one group, each one microphone's turn after the other (Gray code); writes the best signs, and
 * the cost of each reading unless it isn't asked for. @returns the weight gone against
 */
function settleGroup(
  members: readonly number[],
  own: readonly number[],
  readings: readonly SignedReading[],
  signs: Int8Array,
  costIfWrong: Float64Array | null,
): number {
  const n = members.length;
  const reading = own.map((i) => readings[i] as SignedReading);
  const weight = Float64Array.from(reading, (r) => r.weight);
  const wrong = Uint8Array.from(reading, ({ a, b, sign }) =>
    sign * (signs[a] as number) * (signs[b] as number) < 0 ? 1 : 0,
  );
  const readingsOf = members.map((m) =>
    Int32Array.from(reading.flatMap(({ a, b }, k) => (a === m || b === m ? [k] : []))),
  );
  const cost = new Float64Array(own.length).fill(Number.POSITIVE_INFINITY);
  const exact = (): number => {
    let sum = 0;
    for (let k = 0; k < wrong.length; k++) if (wrong[k]) sum += weight[k] as number;
    return sum;
  };
  let against = exact();
  let best = Number.POSITIVE_INFINITY;
  let bestTurns = 0;
  let bestTouched = 0;
  let dearest = costIfWrong === null ? Number.NEGATIVE_INFINITY : Number.POSITIVE_INFINITY;
  let turns = 0;
  let turned = 0;
  // the last microphone keeps its sign: turning all changes nothing
  for (let step = 0; step < 2 ** (n - 1); step++) {
    if (step > 0) {
      const i = 31 - Math.clz32(step & -step);
      turns ^= 1 << i;
      turned += (turns >> i) & 1 ? 1 : -1;
      for (const k of readingsOf[i] as Int32Array) {
        wrong[k] = 1 - (wrong[k] as number);
        against += wrong[k] ? (weight[k] as number) : -(weight[k] as number);
      }
    }
    if (against > Math.max(best, dearest) + DOUBT) continue;
    against = exact();
    if (against < dearest) {
      dearest = 0;
      for (let k = 0; k < cost.length; k++) {
        if (wrong[k]) cost[k] = Math.min(cost[k] as number, against);
        dearest = Math.max(dearest, cost[k] as number);
      }
    }
    const touched = Math.min(turned, n - turned);
    if (against < best - EQUAL_WEIGHT || (against <= best + EQUAL_WEIGHT && touched < bestTouched))
      [best, bestTurns, bestTouched] = [against, turns, touched];
  }
  const others = bitsOf(bestTurns) > n / 2;
  for (const [i, microphone] of members.entries())
    if (((bestTurns >> i) & 1) !== Number(others)) signs[microphone] = -(signs[microphone] as number);
  if (costIfWrong !== null) for (const [k, i] of own.entries()) costIfWrong[i] = cost[k] as number;
  return best;
}

function bitsOf(x: number): number {
  let count = 0;
  for (let rest = x; rest !== 0; rest &= rest - 1) count++;
  return count;
}
