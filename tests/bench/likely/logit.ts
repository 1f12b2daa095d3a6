/**
 * A multinomial logit over the candidates of a choice and "none of them", where several may be right: the weights of highest likelihood,
 * pulled a little towards 0. Source: D. McFadden, "Conditional logit analysis of qualitative choice behavior" (1974); minimum by BFGS
 * (J. Nocedal, S. J. Wright, "Numerical Optimization", 2nd ed., ch. 6). Both from memory.
 */

export interface LogitChoice {
  /** candidates × features; the first feature is 1 */
  features: readonly (readonly number[])[];
  right: readonly boolean[];
}

const STEPS = 300;
const DONE = 1e-5;

/** @param pull on the square of every weight but the first. @returns weights, as many as features */
export function fitLogit(choices: readonly LogitChoice[], features: number, pull: number): number[] {
  let w: number[] = new Array(features).fill(0);
  let { value, gradient } = lossOf(choices, w, pull);
  let inverse = identity(features);
  for (let step = 0; step < STEPS && Math.hypot(...gradient) > DONE * choices.length; step++) {
    const way = inverse.map((row) => -dot(row, gradient));
    const slope = dot(way, gradient);
    if (!(slope < 0)) {
      inverse = identity(features);
      continue;
    }
    let length = 1;
    let next = w;
    let after = { value, gradient };
    do {
      next = w.map((x, i) => x + length * (way[i] as number));
      after = lossOf(choices, next, pull);
      length /= 2;
    } while (!(after.value <= value + 1e-4 * 2 * length * slope) && length > 1e-12);
    const moved = next.map((x, i) => x - (w[i] as number));
    const turned = after.gradient.map((x, i) => x - (gradient[i] as number));
    inverse = updated(inverse, moved, turned);
    w = next;
    ({ value, gradient } = after);
  }
  return w;
}

/** Scores' probabilities, and that of none. */
export function probabilities(choice: LogitChoice, w: readonly number[]): { each: number[]; none: number } {
  const scores = choice.features.map((f) => dot(f, w));
  const top = Math.max(0, ...scores);
  const each = scores.map((z) => Math.exp(z - top));
  const none = Math.exp(-top);
  const all = each.reduce((sum, e) => sum + e, none);
  return { each: each.map((e) => e / all), none: none / all };
}

function lossOf(
  choices: readonly LogitChoice[],
  w: readonly number[],
  pull: number,
): { value: number; gradient: number[] } {
  let value = 0;
  const gradient: number[] = new Array(w.length).fill(0);
  for (const choice of choices) {
    const { each, none } = probabilities(choice, w);
    const any = choice.right.some(Boolean);
    const won = any ? each.reduce((sum, p, c) => sum + (choice.right[c] ? p : 0), 0) : none;
    value -= Math.log(won + 1e-12);
    each.forEach((p, c) => {
      const g = p - (any && choice.right[c] ? p / won : 0);
      const f = choice.features[c] as readonly number[];
      for (let i = 0; i < w.length; i++) gradient[i] = (gradient[i] as number) + g * (f[i] as number);
    });
  }
  for (let i = 1; i < w.length; i++) {
    value += pull * (w[i] as number) ** 2;
    gradient[i] = (gradient[i] as number) + 2 * pull * (w[i] as number);
  }
  return { value, gradient };
}

function updated(inverse: readonly number[][], moved: readonly number[], turned: readonly number[]): number[][] {
  const rho = dot(moved, turned);
  if (!(rho > 1e-12)) return inverse.map((row) => [...row]);
  const hy = inverse.map((row) => dot(row, turned));
  const scale = (1 + dot(turned, hy) / rho) / rho;
  return inverse.map((row, i) =>
    row.map((x, j) => {
      const cross = (moved[i] as number) * (hy[j] as number) + (hy[i] as number) * (moved[j] as number);
      return x + scale * (moved[i] as number) * (moved[j] as number) - cross / rho;
    }),
  );
}

const identity = (n: number): number[][] =>
  Array.from({ length: n }, (_, i) => Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
const dot = (a: readonly number[], b: readonly number[]): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += (a[i] as number) * (b[i] as number);
  return sum;
};
