/**
 * Signs that give most together where there are too many microphones to try all: rows of turns, each the best that is left,
 * undone from where the row was best (B. W. Kernighan, S. Lin, "An efficient heuristic procedure for partitioning graphs", Bell
 * System Technical Journal 49, 1970; from memory). Begun from the present and from every microphone's own view of the others;
 * nothing is drawn by lot. Where everything can be true at once that is found; else the best can be missed, never by a single turn.
 */

const LEAST_GAIN = 1e-9;

/** J[i][j] symmetric, the diagonal unused. @returns Σ_i<j J_ij·s_i·s_j */
export function heldTogether(joint: readonly Float64Array[], signs: Int8Array): number {
  let sum = 0;
  for (let i = 0; i < signs.length; i++)
    for (let j = i + 1; j < signs.length; j++)
      sum += ((joint[i] as Float64Array)[j] as number) * (signs[i] as number) * (signs[j] as number);
  return sum;
}

/**
 * @param joint J, n × n, symmetric: above 0 where two want the same sign
 * @param present ±1 for each
 * @returns ±1 for each, for the largest Σ J_ij·s_i·s_j found; of equal ones the nearest to the present
 */
export function searchSigns(joint: readonly Float64Array[], present: Int8Array): Int8Array {
  const n = present.length;
  let best: Int8Array = present.slice();
  let most = Number.NEGATIVE_INFINITY;
  let fewest = n;
  for (let from = -1; from < n; from++) {
    const signs = improved(joint, from < 0 ? present.slice() : seenFrom(joint, from, present));
    nearer(signs, present);
    const held = heldTogether(joint, signs);
    const touched = touchedOf(signs, present);
    if (held > most + LEAST_GAIN || (held > most - LEAST_GAIN && touched < fewest))
      [best, most, fewest] = [signs, held, touched];
  }
  return best;
}

const touchedOf = (signs: Int8Array, present: Int8Array): number =>
  signs.reduce((sum, s, i) => sum + (s === present[i] ? 0 : 1), 0);

/** All turned over is the same: the nearer to the present of the two. */
function nearer(signs: Int8Array, present: Int8Array): void {
  if (2 * touchedOf(signs, present) > signs.length)
    for (let i = 0; i < signs.length; i++) signs[i] = -(signs[i] as number);
}

/** One keeps its sign; the others are joined to those that are set one after the other, the strongest first. */
function seenFrom(joint: readonly Float64Array[], from: number, present: Int8Array): Int8Array {
  const n = present.length;
  const signs = new Int8Array(n);
  signs[from] = present[from] as number;
  const pull = Float64Array.from(joint[from] as Float64Array, (w) => w * (signs[from] as number));
  for (let set = 1; set < n; set++) {
    let next = -1;
    for (let i = 0; i < n; i++)
      if (signs[i] === 0 && (next < 0 || Math.abs(pull[i] as number) > Math.abs(pull[next] as number))) next = i;
    const by = pull[next] as number;
    signs[next] = by > 0 ? 1 : by < 0 ? -1 : (present[next] as number);
    for (let i = 0; i < n; i++)
      pull[i] = (pull[i] as number) + ((joint[next] as Float64Array)[i] as number) * (signs[next] as number);
  }
  return signs;
}

/** Rows of turns while they gain; writes and returns `signs`. */
function improved(joint: readonly Float64Array[], signs: Int8Array): Int8Array {
  const n = signs.length;
  for (;;) {
    const gain = new Float64Array(n);
    for (let i = 0; i < n; i++)
      for (let j = 0; j < n; j++)
        if (j !== i)
          gain[i] =
            (gain[i] as number) -
            2 * ((joint[i] as Float64Array)[j] as number) * (signs[i] as number) * (signs[j] as number);
    const row: number[] = [];
    let sum = 0;
    let most = 0;
    let upTo = 0;
    const left = new Set(signs.keys());
    while (left.size > 0) {
      let turn = -1;
      for (const i of left) if (turn < 0 || (gain[i] as number) > (gain[turn] as number)) turn = i;
      left.delete(turn);
      row.push(turn);
      sum += gain[turn] as number;
      for (let j = 0; j < n; j++)
        if (j !== turn)
          gain[j] =
            (gain[j] as number) +
            4 * ((joint[turn] as Float64Array)[j] as number) * (signs[turn] as number) * (signs[j] as number);
      signs[turn] = -(signs[turn] as number);
      if (sum > most + LEAST_GAIN) [most, upTo] = [sum, row.length];
    }
    for (const i of row.slice(upTo)) signs[i] = -(signs[i] as number);
    if (upTo === 0) return signs;
  }
}
