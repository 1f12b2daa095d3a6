/**
 * What the sure pairs of a drum say together: all tracks hear the same hits, so arrivals close, d(A,B) + d(B,C) = d(A,C), and signs
 * multiply. Tracks are numbers, delays are samples.
 */

/** A pair that is sure. */
export interface Edge {
  a: number;
  b: number;
  /** positive: b hears it later */
  delay: number;
  /** product of the first pushes' signs */
  sign: number;
  /** 90 % */
  uncertainty: number;
}

/** A track's arrival against the first one's. */
export interface Place {
  at: number;
  sign: number;
  uncertainty: number;
}

/** Of two tracks what a third one says that both are sure with. */
export interface Chain {
  via: number;
  delay: number;
  sign: number;
  uncertainty: number;
}

export function chainsOf(edges: readonly Edge[], a: number, b: number): Chain[] {
  const from = neighbours(edges, a);
  const to = neighbours(edges, b);
  return [...from].flatMap(([via, one]) => {
    const two = to.get(via);
    if (via === a || via === b || !two) return [];
    return {
      via,
      delay: one.delay - two.delay,
      sign: one.sign * two.sign,
      uncertainty: Math.hypot(one.uncertainty, two.uncertainty),
    };
  });
}

/** What is known of each track that is sure with this one, seen from it. */
function neighbours(edges: readonly Edge[], t: number): Map<number, Omit<Edge, 'a' | 'b'>> {
  return new Map(
    edges.flatMap(({ a, b, delay, sign, uncertainty }) => {
      if (a === t) return [[b, { delay, sign, uncertainty }] as const];
      return b === t ? [[a, { delay: -delay, sign, uncertainty }] as const] : [];
    }),
  );
}

/** Chains contradict where they lie farther apart than their uncertainties allow, or their signs differ. */
export const agree = (p: Omit<Chain, 'via'>, q: Omit<Chain, 'via'>): boolean =>
  p.sign === q.sign && Math.abs(p.delay - q.delay) <= Math.hypot(p.uncertainty, q.uncertainty);

/** so many independent chains settle a pair */
export const ENOUGH_CHAINS = 2;

/**
 * Pairs that two or more chains contradict which agree with each other, while fewer bear it out; the one with most against it first,
 * and what was found wrong counts no more. @returns each with the tracks that speak against it
 */
export function contradicted(edges: readonly Edge[]): { edge: Edge; by: number[] }[] {
  const left = new Set(edges);
  const found: { edge: Edge; by: number[] }[] = [];
  for (;;) {
    const list = [...left];
    const worst = list
      .map((edge) => ({ edge, by: against(edge, list) }))
      .sort((p, q) => q.by.length - p.by.length || q.edge.uncertainty - p.edge.uncertainty)[0];
    if (!worst || worst.by.length < ENOUGH_CHAINS) return found;
    left.delete(worst.edge);
    found.push(worst);
  }
}

function against(edge: Edge, edges: readonly Edge[]): number[] {
  const chains = chainsOf(edges, edge.a, edge.b);
  const no = chains.filter((chain) => !agree(chain, edge));
  // the largest group that agrees among itself
  const groups = no.map((one) => no.filter((other) => agree(one, other)));
  const most = groups.sort((p, q) => q.length - p.length)[0] ?? [];
  return most.length > chains.length - no.length ? most.map(({ via }) => via) : [];
}

const ROUNDS = 100;

/**
 * Arrivals of the tracks that sure pairs connect, of the largest such group: weighted least squares.
 * @returns empty: there is no sure pair
 */
export function placesOf(edges: readonly Edge[]): Map<number, Place> {
  let best = new Map<number, Place>();
  const seen = new Set<number>();
  for (const { a } of edges) {
    if (seen.has(a)) continue;
    const group = grown(edges, a);
    for (const t of group.keys()) seen.add(t);
    if (group.size > best.size) best = group;
  }
  const [first] = best.keys();
  for (let round = 0; round < ROUNDS; round++)
    for (const [t, place] of best) {
      if (t === first) continue;
      let weights = 0;
      let sum = 0;
      for (const [other, { delay, uncertainty }] of neighbours(edges, t)) {
        const weight = uncertainty ** -2;
        weights += weight;
        sum += weight * ((best.get(other) as Place).at - delay);
      }
      place.at = sum / weights;
    }
  return best;
}

/** From one track on, along the surest pairs first. */
function grown(edges: readonly Edge[], from: number): Map<number, Place> {
  const group = new Map<number, Place>([[from, { at: 0, sign: 1, uncertainty: 0 }]]);
  for (;;) {
    let next: { t: number; place: Place } | null = null;
    for (const [t, { at, sign, uncertainty }] of group)
      for (const [other, edge] of neighbours(edges, t)) {
        const total = Math.hypot(uncertainty, edge.uncertainty);
        if (group.has(other) || (next && next.place.uncertainty <= total)) continue;
        next = { t: other, place: { at: at + edge.delay, sign: sign * edge.sign, uncertainty: total } };
      }
    if (next === null) return group;
    group.set(next.t, next.place);
  }
}
