/** Arrivals of one drum close, and signs multiply: what follows from sure pairs, and which of them can't be. */
import { describe, expect, test } from 'vitest';
import { chainsOf, contradicted, type Edge, placesOf } from '../../../src/take/together/graph';

const AT = [0, 40, 130, 310, 305];
const SIGNS = [1, -1, 1, 1, -1];
const edge = (a: number, b: number, more: Partial<Edge> = {}): Edge => ({
  a,
  b,
  delay: AT[b] - AT[a],
  sign: SIGNS[a] * SIGNS[b],
  uncertainty: 3,
  ...more,
});

describe('sure pairs of one drum', () => {
  test('say what a pair between them is, whichever way round they were read', () => {
    const chains = chainsOf([edge(0, 1), edge(2, 0), edge(1, 3), edge(2, 3)], 1, 2);
    expect(chains.map(({ via, delay, sign }) => [via, delay, sign])).toEqual([
      [0, 90, -1],
      [3, 90, -1],
    ]);
    expect(chains[0]?.uncertainty).toBeCloseTo(Math.hypot(3, 3), 9);
  });

  test('place all tracks that they connect, the surest counting most', () => {
    const places = placesOf([edge(0, 1), edge(1, 2), edge(0, 2, { delay: 132, uncertainty: 30 }), edge(3, 4)]);
    expect([...places.keys()].sort()).toEqual([0, 1, 2]);
    expect(places.get(2)?.at).toBeCloseTo(130, 0);
    expect(places.get(1)?.sign).toBe(-1);
  });

  test('are taken back where two others contradict them, in delay or in sign, and nothing else is', () => {
    const all = AT.flatMap((_, a) => AT.flatMap((_, b) => (a < b ? [edge(a, b)] : [])));
    for (const wrong of [{ delay: 215 }, { sign: -1 }]) {
      const edges = all.map((one) => (one.a === 2 && one.b === 3 ? { ...one, ...wrong } : one));
      expect(contradicted(edges).map((found) => [found.edge.a, found.edge.b])).toEqual([[2, 3]]);
    }
    expect(contradicted(all)).toEqual([]);
  });

  test('stay where only one other contradicts them: either may be wrong', () => {
    expect(contradicted([edge(0, 1), edge(1, 2), edge(0, 2, { delay: 215 })])).toEqual([]);
  });
});
