/**
 * A group of microphones on one drum: which set of polarities gives most together in the drum's own low band. With levels
 * made equal, the power of Σ s_i·x_i is Σ_ij s_i·s_j·Re γ_ij, γ the complex coherency of each pair, γ_ii = 1.
 */
import { MOST_TOGETHER } from './signs';

export interface GroupSum {
  /** ±1 for each microphone, against its present polarity: the fewest turned of those that give most */
  turn: Int8Array;
  /** dB over the present set; 0: the present set is best */
  gainDb: number;
  /** dB of the present set, and of the best one, over microphones that have nothing in common */
  presentDb: number;
  bestDb: number;
}

/** Less than this is none: coherencies read in different takes can add up to less than nothing. */
const LEAST_POWER = 1e-3;
const EQUAL_POWER = 1e-9;

/**
 * @param realCoherency Re γ of each pair as things stand, −1…1; row i, column j, symmetric
 * @throws RangeError not square, a figure outside −1…1, or more than MOST_TOGETHER microphones
 */
export function bestPolarities(realCoherency: readonly (readonly number[])[]): GroupSum {
  const n = realCoherency.length;
  if (n > MOST_TOGETHER) throw new RangeError(`${n} microphones, at most ${MOST_TOGETHER}`);
  for (const row of realCoherency)
    if (row.length !== n || row.some((x) => !(Math.abs(x) <= 1 + EQUAL_POWER)))
      throw new RangeError(`coherencies must be ${n} × ${n} figures within −1…1`);
  const power = (turns: number): number => {
    let sum = n;
    for (let i = 0; i < n; i++)
      for (let j = 0; j < i; j++) {
        const alike = ((turns >> i) ^ (turns >> j)) & 1 ? -1 : 1;
        sum += alike * ((realCoherency[i]?.[j] as number) + (realCoherency[j]?.[i] as number));
      }
    return sum;
  };
  const turnedOf = (turns: number): number => {
    let turned = 0;
    for (let i = 0; i < n; i++) turned += (turns >> i) & 1;
    return turned;
  };
  const present = power(0);
  let best = present;
  let bestTurns = 0;
  let bestTouched = 0;
  for (let turns = 1; turns < 2 ** Math.max(0, n - 1); turns++) {
    const p = power(turns);
    if (p < best - EQUAL_POWER) continue;
    const turned = turnedOf(turns);
    const touched = Math.min(turned, n - turned);
    if (p > best + EQUAL_POWER || touched < bestTouched) {
      [best, bestTouched] = [p, touched];
      bestTurns = turned <= n - turned ? turns : 2 ** n - 1 - turns;
    }
  }
  const dB = (p: number): number => 10 * Math.log10(Math.max(p, LEAST_POWER * n) / n);
  return {
    turn: Int8Array.from({ length: n }, (_, i) => ((bestTurns >> i) & 1 ? -1 : 1)),
    gainDb: n > 0 ? dB(best) - dB(present) : 0,
    presentDb: n > 0 ? dB(present) : 0,
    bestDb: n > 0 ? dB(best) : 0,
  };
}
