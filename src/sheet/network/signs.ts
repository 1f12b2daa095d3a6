/**
 * Which signs (±1) of the microphones contradict the readings least: the question behind "can these readings all be true?"
 * and behind "which switches have to be touched?". A set of readings can all be true exactly if every cycle's product is
 * positive, which is if the microphones fall into two camps, same within and inverted across: F. Harary, "On the notion of
 * balance of a signed graph", Michigan Math. J. 2, 1953. Exact up to EXACT_TOGETHER microphones that hang together: all
 * assignments are tried; larger groups are searched (signSearch.ts).
 */
import { checkEnds, type Ends, groupsOf } from './ends';
import { heldTogether, searchSigns } from './signSearch';

/** So many are tried out: 2^15 assignments take some hundredths of a second. */
export const EXACT_TOGETHER = 16;

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
    const settled = members.length > EXACT_TOGETHER ? searchGroup : settleGroup;
    return settled(members, own, readings, signs, signsOnly ? null : costIfWrong);
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

/** As settleGroup, by search. What it costs if a reading is wrong: its two microphones are one then, of opposite sign to what it says. */
function searchGroup(
  members: readonly number[],
  own: readonly number[],
  readings: readonly SignedReading[],
  signs: Int8Array,
  costIfWrong: Float64Array | null,
): number {
  const place = new Map(members.map((m, i) => [m, i]));
  const present = Int8Array.from(members, (m) => signs[m] as number);
  const joint = members.map(() => new Float64Array(members.length));
  let weights = 0;
  const local = own.map((k) => {
    const { a, b, sign, weight } = readings[k] as SignedReading;
    weights += weight;
    return { a: place.get(a) as number, b: place.get(b) as number, sign, weight };
  });
  const add = (i: number, j: number, w: number): void => {
    const row = joint[i] as Float64Array;
    row[j] = (row[j] as number) + w;
  };
  for (const { a, b, sign, weight } of local) {
    add(a, b, sign * weight);
    add(b, a, sign * weight);
  }
  const against = (of: readonly Float64Array[], by: Int8Array, held: number): number =>
    Math.max(0, (weights - held - heldTogether(of, by)) / 2);
  const best = searchSigns(joint, present);
  for (const [i, m] of members.entries()) signs[m] = best[i] as number;
  const cost = against(joint, best, 0);
  if (costIfWrong !== null)
    for (const [k, { a, b, sign }] of local.entries()) {
      if (sign * (best[a] as number) * (best[b] as number) < 0) {
        costIfWrong[own[k] as number] = cost;
        continue;
      }
      const one = fused(joint, a, b, -sign);
      const wrong = searchSigns(one, present);
      const fixed = -sign * ((joint[a] as Float64Array)[b] as number);
      costIfWrong[own[k] as number] = Math.max(cost, against(one, wrong, fixed));
    }
  return cost;
}

/** B moves with A, `turn` times its sign: what holds B holds A. B itself is held by nothing. */
function fused(joint: readonly Float64Array[], a: number, b: number, turn: number): Float64Array[] {
  const one = joint.map((row) => row.slice());
  for (const [j, row] of one.entries()) {
    const w = turn * (row[b] as number);
    row[b] = 0;
    (one[b] as Float64Array)[j] = 0;
    if (j === a || j === b) continue;
    row[a] = (row[a] as number) + w;
    const ofA = one[a] as Float64Array;
    ofA[j] = (ofA[j] as number) + w;
  }
  return one;
}

function bitsOf(x: number): number {
  let count = 0;
  for (let rest = x; rest !== 0; rest &= rest - 1) count++;
  return count;
}
