/** Where something stands on the drawing, in words: what a screen reader says, and the line under the drawing. */
import { sheetDrumName } from '../../text/names';
import type { Place } from '../document/model';
import { DRUM_REACH, type DrumPlace } from './places';

const WAYS = [
  'right of',
  'behind, right of',
  'behind',
  'behind, left of',
  'left of',
  'in front, left of',
  'in front of',
  'in front, right of',
];

/** "left of the snare, 23 % from the left, 66 % from the front" */
export function placeText(place: Place, drums: readonly DrumPlace[]): string {
  const percent = (part: number): string => `${Math.round(100 * part)} %`;
  const there = `${percent(place.x)} from the left, ${percent(place.y)} from the front`;
  const by = (one: DrumPlace): number =>
    Math.hypot((one.place.x - place.x) / DRUM_REACH.x, (one.place.y - place.y) / DRUM_REACH.y);
  const [nearest] = drums.toSorted((p, q) => by(p) - by(q));
  if (!nearest) return there;
  const drum = `the ${sheetDrumName(nearest.drum)}`;
  if (by(nearest) < 0.6) return `on ${drum}, ${there}`;
  const angle = Math.atan2((place.y - nearest.place.y) / DRUM_REACH.y, (place.x - nearest.place.x) / DRUM_REACH.x);
  const way = WAYS[(Math.round(angle / (Math.PI / 4)) + 8) % 8] as string;
  return `${way} ${drum}, ${there}`;
}
