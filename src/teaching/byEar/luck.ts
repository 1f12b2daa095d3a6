/** What guessing comes to: of two answers one is right, so that half of them are by luck. */

/** Chance that at least `right` of `of` guesses are right: Σ C(n,k) ÷ 2ⁿ, k ≥ right. @param of 1…50 */
export function chanceOf(right: number, of: number): number {
  let ways = 1;
  let sum = 0;
  for (let k = 0; k <= of; k++) {
    if (k >= right) sum += ways;
    ways = (ways * (of - k)) / (k + 1);
  }
  return sum / 2 ** of;
}

/** what comes by luck less often than this isn't taken for it: common practice in listening tests (from memory: ITU-R BS.1116, 5 %) */
const BY_LUCK = 0.05;

/** The fewest right answers that hardly come by luck; null: not even all of them. */
export function beyondLuck(of: number): number | null {
  for (let right = Math.ceil(of / 2); right <= of; right++) if (chanceOf(right, of) <= BY_LUCK) return right;
  return null;
}
