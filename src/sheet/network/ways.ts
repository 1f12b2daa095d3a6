/** Ways from one microphone to another over pairs. */
import type { Ends } from './ends';

/** The shortest way from one microphone to another: the edges by number, in their order; null: there is none. */
export function wayBetween(edges: readonly Ends[], from: number, to: number): number[] | null {
  const came = new Map<number, { by: number; from: number } | null>([[from, null]]);
  const waiting = [from];
  for (let next = 0; next < waiting.length && !came.has(to); next++) {
    const at = waiting[next] as number;
    for (const [i, { a, b }] of edges.entries()) {
      const other = a === at ? b : b === at ? a : at;
      if (came.has(other)) continue;
      came.set(other, { by: i, from: at });
      waiting.push(other);
    }
  }
  if (!came.has(to)) return null;
  const way: number[] = [];
  for (let step = came.get(to); step; step = came.get(step.from)) way.unshift(step.by);
  return way;
}
