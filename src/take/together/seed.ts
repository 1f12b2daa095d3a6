/**
 * Where no track is sure with the drum's own: tracks placed one by one by their curves, the clearest first, and kept where each is found
 * again in the same place by all the others. Chance doesn't close.
 */
import type { Edge, Place } from './graph';
import { type Found, PLACED_UNCERTAINTY_SECONDS, type Placer } from './place';

/** so many tracks have to bear each other out */
const LEAST_TRACKS = 5;
/** found again so near, s */
const AGAIN_SECONDS = 0.0001;

/**
 * @param start the drum's own track, and what is sure with it
 * @param waiting numbers of tracks to be placed
 * @param trusted the least trust
 * @returns null: they don't bear each other out
 */
export function seeded(
  placer: Placer,
  start: ReadonlyMap<number, Place>,
  waiting: readonly number[],
  edges: readonly Edge[],
  trusted: number,
  sampleRate: number,
): Map<number, Place> | null {
  const places = new Map(start);
  const left = new Set(waiting.filter((t) => !places.has(t)));
  const uncertainty = PLACED_UNCERTAINTY_SECONDS * sampleRate;
  while (left.size > 0) {
    const [best] = [...left]
      .flatMap((t): (Found & { t: number })[] => {
        const found = placer.find(t, places);
        return found && found.trust >= trusted ? [{ t, ...found }] : [];
      })
      .sort((p, q) => q.trust - p.trust);
    if (!best) break;
    places.set(best.t, { at: best.at, sign: best.sign, uncertainty });
    left.delete(best.t);
  }
  for (;;) {
    if (places.size < LEAST_TRACKS) return null;
    const [worst] = [...places]
      .map(([t, place]) => ({ t, trust: again(placer, t, place, places, AGAIN_SECONDS * sampleRate) }))
      .sort((p, q) => p.trust - q.trust);
    if (!worst || worst.trust >= trusted) break;
    // without what it all began with nobody knows where to look
    if (start.has(worst.t)) return null;
    places.delete(worst.t);
  }
  return edges.every((edge) => borneOut(edge, places)) ? places : null;
}

/** Trust of its place as the others find it; 0: they find another one. */
function again(placer: Placer, t: number, place: Place, places: ReadonlyMap<number, Place>, within: number): number {
  const found = placer.find(t, places);
  return found && found.sign === place.sign && Math.abs(found.at - place.at) <= within ? found.trust : 0;
}

function borneOut({ a, b, delay, sign, uncertainty }: Edge, places: ReadonlyMap<number, Place>): boolean {
  const [one, two] = [places.get(a), places.get(b)];
  if (!one || !two) return true;
  const within = Math.hypot(uncertainty, one.uncertainty, two.uncertainty);
  return one.sign * two.sign === sign && Math.abs(two.at - one.at - delay) <= within;
}
