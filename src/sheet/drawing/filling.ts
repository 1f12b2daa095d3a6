/** On paper nobody moves anything: what there is fills the drawing. */
import type { Point } from './geometry';
import type { DrumPlace } from './places';

/** Room for names and rims at the edges, of the drawing. */
const EDGE = { x: 0.08, y: 0.1 };

/** The same places, spread so that they fill the drawing. */
export function filling(
  drums: readonly DrumPlace[],
  microphones: ReadonlyMap<string, Point>,
): { drums: DrumPlace[]; microphones: Map<string, Point> } {
  const all = [...drums.map(({ place }) => place), ...microphones.values()];
  const spread = (key: 'x' | 'y') => {
    const [low, high] = [Math.min(...all.map((one) => one[key])), Math.max(...all.map((one) => one[key]))];
    const wide = Math.max(0.2, high - low);
    return (value: number): number => EDGE[key] + ((1 - 2 * EDGE[key]) * (value - (low + high - wide) / 2)) / wide;
  };
  const [x, y] = [spread('x'), spread('y')];
  const to = (place: Point): Point => ({ x: x(place.x), y: y(place.y) });
  return {
    drums: drums.map((one) => ({ ...one, place: to(one.place) })),
    microphones: new Map([...microphones].map(([id, place]) => [id, to(place)])),
  };
}
