/**
 * A group of microphones on one drum: which set of polarities gives most together in one low octave. With levels
 * made equal, the power of Σ s_i·x_i is Σ_ij s_i·s_j·Re γ_ij, γ the complex coherency of each pair, γ_ii = 1.
 */
import { heldTogether, searchSigns } from './signSearch';
import { EXACT_TOGETHER } from './signs';

export interface GroupSum {
  /** ±1 for each microphone, against its present polarity: the fewest turned of those that give most */
  turn: Int8Array;
  /** dB over the present set; 0: the present set is best */
  gainDb: number;
  /** dB of the present set, and of the best one, over microphones that have nothing in common */
  presentDb: number;
  bestDb: number;
}

/** Less than this is none: coherencies read of different hits can add up to less than nothing. */
const LEAST_POWER = 1e-3;
const EQUAL_POWER = 1e-9;

/** Of n microphones together, dB over as many that have nothing in common. */
const levelDb = (power: number, n: number): number => 10 * Math.log10(Math.max(power, LEAST_POWER * n) / n);

/** What such signs (±1, for each microphone) come to, dB over microphones that have nothing in common; 0 for none. */
export function sumOfDb(realCoherency: readonly (readonly number[])[], signs: readonly number[]): number {
  const n = realCoherency.length;
  let power = n;
  for (let i = 0; i < n; i++)
    for (let j = i + 1; j < n; j++) power += (signs[i] as number) * (signs[j] as number) * both(realCoherency, i, j);
  return n > 0 ? levelDb(power, n) : 0;
}

const both = (rows: readonly (readonly number[])[], i: number, j: number): number =>
  (rows[i]?.[j] as number) + (rows[j]?.[i] as number);

/**
 * @param realCoherency Re γ of each pair as things stand, −1…1; row i, column j, symmetric
 * @throws RangeError not square, or a figure outside −1…1
 */
export function bestPolarities(realCoherency: readonly (readonly number[])[]): GroupSum {
  const n = realCoherency.length;
  for (const row of realCoherency)
    if (row.length !== n || row.some((x) => !(Math.abs(x) <= 1 + EQUAL_POWER)))
      throw new RangeError(`coherencies must be ${n} × ${n} figures within −1…1`);
  const sign = new Float64Array(n).fill(1);
  /** Σ_j s_j·(γ_ij + γ_ji), j ≠ i: what turning i takes away twice */
  const pull = Float64Array.from({ length: n }, (_, i) => {
    let sum = 0;
    for (let j = 0; j < n; j++) if (j !== i) sum += both(realCoherency, i, j);
    return sum;
  });
  let power = n;
  for (let i = 0; i < n; i++) power += (pull[i] as number) / 2;
  const present = power;
  if (n > EXACT_TOGETHER) return searched(realCoherency, present);
  let best = present;
  let bestTurns = 0;
  let bestTouched = 0;
  let turns = 0;
  let turned = 0;
  // one after the other is turned (Gray code); the last stays, for turning all changes nothing
  for (let step = 1; step < 2 ** Math.max(0, n - 1); step++) {
    const i = 31 - Math.clz32(step & -step);
    power -= 2 * (sign[i] as number) * (pull[i] as number);
    sign[i] = -(sign[i] as number);
    for (let j = 0; j < n; j++)
      if (j !== i) pull[j] = (pull[j] as number) + 2 * (sign[i] as number) * both(realCoherency, i, j);
    turns ^= 1 << i;
    turned += (sign[i] as number) < 0 ? 1 : -1;
    if (power < best - EQUAL_POWER) continue;
    const touched = Math.min(turned, n - turned);
    if (power > best + EQUAL_POWER || touched < bestTouched) {
      [best, bestTouched] = [power, touched];
      bestTurns = turned <= n - turned ? turns : 2 ** n - 1 - turns;
    }
  }
  return groupSum(
    Int8Array.from({ length: n }, (_, i) => ((bestTurns >> i) & 1 ? -1 : 1)),
    present,
    best,
  );
}

/** More than can be tried out one by one. */
function searched(realCoherency: readonly (readonly number[])[], present: number): GroupSum {
  const n = realCoherency.length;
  const joint = realCoherency.map((row, i) => Float64Array.from(row, (_, j) => both(realCoherency, i, j)));
  const turn = searchSigns(joint, new Int8Array(n).fill(1));
  const best = n + heldTogether(joint, turn);
  return best > present + EQUAL_POWER
    ? groupSum(turn, present, best)
    : groupSum(new Int8Array(n).fill(1), present, present);
}

function groupSum(turn: Int8Array, present: number, best: number): GroupSum {
  const n = turn.length;
  const dB = (p: number): number => (n > 0 ? levelDb(p, n) : 0);
  return { turn, gainDb: dB(best) - dB(present), presentDb: dB(present), bestDb: dB(best) };
}
