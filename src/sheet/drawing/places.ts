/**
 * Where drums and microphones stand on the drawing: as they were put, else where they usually do round a drummer who sits at the
 * bottom and leads with the right hand, told from what their drum and place are called. Common practice, no source.
 */
import { type Mark, marksOf } from '../../text/micWords';
import type { KitSheet, Microphone, Place } from '../document/model';

export type DrumShape = 'round' | 'kick' | 'cymbal';

export interface DrumPlace {
  drum: string;
  shape: DrumShape;
  place: Place;
}

const at = (x: number, y: number): Place => ({ x, y });

/** the drummer's stool */
export const STOOL: Place = at(0.5, 0.9);

/** By what a drum is called: where it stands, and where the next ones of its kind do. */
const USUAL: Readonly<Record<string, readonly Place[]>> = {
  kick: [at(0.5, 0.38), at(0.66, 0.42)],
  snare: [at(0.32, 0.66), at(0.14, 0.8)],
  'hi-hat': [at(0.12, 0.56), at(0.12, 0.8)],
  'rack tom': [at(0.31, 0.32), at(0.69, 0.32), at(0.87, 0.5)],
  'high tom': [at(0.31, 0.32)],
  'mid tom': [at(0.69, 0.32)],
  'low tom': [at(0.87, 0.5), at(0.71, 0.68)],
  'floor tom': [at(0.71, 0.68), at(0.88, 0.76)],
  tom: [at(0.31, 0.32), at(0.69, 0.32), at(0.71, 0.68), at(0.88, 0.76)],
  ride: [at(0.88, 0.36), at(0.9, 0.58)],
  crash: [at(0.13, 0.3), at(0.89, 0.16), at(0.12, 0.14)],
};
const CYMBALS: readonly string[] = ['hi-hat', 'ride', 'crash'];
/** Where anything else stands: round the rest. */
const ELSEWHERE: readonly Place[] = [0.9, 0.1, 0.75, 0.25, 0.6, 0.4].flatMap((x) => [at(x, 0.9), at(x, 0.12)]);
/** two nearer than this are on each other */
const APART = 0.11;

/** From a drum's middle, in its own radius: the nearest free one of what the place is called, then any free one. */
const RIM = { top: at(-0.72, -0.72), bottom: at(-0.72, 0.72), shell: at(0.8, 0.62) };
const ROUND: readonly Place[] = [
  at(-0.72, -0.72),
  at(0.72, -0.72),
  at(-0.72, 0.72),
  at(0.8, 0.62),
  at(0, -1.15),
  at(0, 1.15),
  at(-1.15, 0),
  at(1.15, 0),
];
const IN_FRONT = at(-0.8, -1.35);
const KICK: Readonly<Record<string, Place>> = {
  inside: at(0.45, -0.3),
  outside: IN_FRONT,
  front: IN_FRONT,
  reso: IN_FRONT,
  driver: at(1.9, -1.3),
  beater: at(0.05, 1.2),
  batter: at(0.05, 1.2),
  shell: at(1.5, 0),
};
const ROUND_KICK: readonly Place[] = [
  IN_FRONT,
  at(0.45, -0.3),
  at(1.9, -1.3),
  at(0.05, 1.2),
  at(1.6, 0.1),
  at(-1.6, 0.1),
  at(1.3, 1.2),
];
/** a drum's reach to each side, of the drawing */
export const DRUM_REACH = at(0.115, 0.15);
const KICK_REACH = at(0.085, 0.15);

const OVERHEADS = { left: at(0.25, 0.11), right: at(0.78, 0.11), middle: at(0.52, 0.7) };
const ROOMS = { left: at(0.07, 0.93), right: at(0.93, 0.93), middle: at(0.9, 0.92) };
const WIDE: readonly Place[] = [
  at(0.5, 0.07),
  at(0.07, 0.07),
  at(0.93, 0.07),
  ...[0.3, 0.7, 0.1, 0.9, 0.2, 0.8, 0.4, 0.6].map((x) => at(x, 0.94)),
];

const far = (p: Place, q: Place): number => Math.hypot(p.x - q.x, p.y - q.y);
const isFree = (taken: readonly Place[], one: Place): boolean => taken.every((other) => far(one, other) >= APART);

/** The first that is free; where none is, the last one, a little aside for each that is there. */
function firstFree(taken: readonly Place[], list: readonly Place[], apart = APART): Place {
  const found = list.find((one) => taken.every((other) => far(one, other) >= apart));
  if (found) return found;
  for (let k = 1; k < 400; k++) {
    const angle = k * 2.4;
    const one = at(0.5 + 0.023 * Math.sqrt(k) * Math.cos(angle), 0.5 + 0.023 * Math.sqrt(k) * Math.sin(angle));
    if (taken.every((other) => far(one, other) >= apart / 2)) return one;
  }
  return at(0.5, 0.5);
}

const drumWord = (marks: readonly Mark[]): { drum: string; number: string } | undefined =>
  marks.find((mark) => 'drum' in mark);
const placeWord = (marks: readonly Mark[]): string | undefined => marks.find((mark) => 'place' in mark)?.place;
const sideWord = (marks: readonly Mark[]): 'left' | 'right' | undefined => marks.find((mark) => 'side' in mark)?.side;

/** Every drum that a microphone or a pair names, in the sheet's order. */
export function drumPlacesOf(sheet: KitSheet): DrumPlace[] {
  const drums = [...new Set([...sheet.microphones, ...sheet.pairs].map(({ drum }) => drum))].filter(
    (drum) => drum.trim() !== '',
  );
  const put = new Map(sheet.drumPlaces.map((one) => [one.drum, one.place]));
  const taken: Place[] = [...put.values()];
  return drums.map((drum) => {
    const word = drumWord(marksOf(drum));
    const list = USUAL[word?.drum ?? ''] ?? [];
    const first = list[Number(word?.number || 1) - 1];
    const place = put.get(drum) ?? firstFree(taken, [...(first ? [first] : []), ...list, ...ELSEWHERE]);
    taken.push(place);
    const shape = word?.drum === 'kick' ? 'kick' : CYMBALS.includes(word?.drum ?? '') ? 'cymbal' : 'round';
    return { drum, shape, place };
  });
}

/** Every microphone's place, by id. */
export function microphonePlaces(sheet: KitSheet, drums: readonly DrumPlace[]): Map<string, Place> {
  const places = new Map(sheet.microphones.flatMap(({ id, place }) => (place ? [[id, place] as const] : [])));
  const taken = [...places.values()];
  const put = (one: Microphone, place: Place): void => {
    const within = at(Math.min(0.97, Math.max(0.03, place.x)), Math.min(0.96, Math.max(0.04, place.y)));
    places.set(one.id, within);
    taken.push(within);
  };
  const left = sheet.microphones.filter(({ place }) => place === null);
  for (const drum of drums)
    for (const one of left.filter((mic) => mic.drum === drum.drum)) put(one, besideDrum(drum, one, taken));
  const wide = left.filter(({ drum }) => drum.trim() === '');
  // those that say which side they are on choose first
  for (const said of [true, false])
    for (const one of wide)
      if (!places.has(one.id) && (wantedSide(one, drums) !== null) === said) put(one, overAll(one, drums, wide, taken));
  return places;
}

const wordsOf = ({ label, side }: Microphone): Mark[] => [...marksOf(side), ...marksOf(label)];

function besideDrum({ shape, place }: DrumPlace, one: Microphone, taken: readonly Place[]): Place {
  const marks = wordsOf(one);
  const word = placeWord(marks) ?? '';
  const reach = shape === 'kick' ? KICK_REACH : DRUM_REACH;
  const wanted = shape === 'kick' ? KICK[word] : RIM[word as keyof typeof RIM];
  const list = [...(wanted ? [wanted] : []), ...(shape === 'kick' ? ROUND_KICK : ROUND)];
  const rings = [...list, ...list.map(({ x, y }) => at(1.7 * x, 1.7 * y))];
  return firstFree(
    taken,
    rings.map(({ x, y }) => at(place.x + x * reach.x, place.y + y * reach.y)),
    0.07,
  );
}

/** "left", "right": as it is called, or by the drum that it is named after; null: neither. */
function wantedSide(one: Microphone, drums: readonly DrumPlace[]): 'left' | 'right' | null {
  const marks = wordsOf(one);
  const said = sideWord(marks);
  if (said) return said;
  const word = drumWord(marks);
  const drum = word && drums.find((other) => drumWord(marksOf(other.drum))?.drum === word.drum);
  return drum && Math.abs(drum.place.x - 0.5) > APART ? (drum.place.x < 0.5 ? 'left' : 'right') : null;
}

function overAll(
  one: Microphone,
  drums: readonly DrumPlace[],
  wide: readonly Microphone[],
  taken: readonly Place[],
): Place {
  const isRoom = (mic: Microphone): boolean => placeWord(wordsOf(mic)) === 'room';
  const spots = isRoom(one) ? ROOMS : OVERHEADS;
  const side = wantedSide(one, drums);
  const alike = wide.filter((other) => isRoom(other) === isRoom(one)).length;
  const order = side
    ? [spots[side]]
    : alike === 1 || !isFree(taken, spots.left) || !isFree(taken, spots.right)
      ? [spots.middle, spots.left, spots.right]
      : [spots.left, spots.right, spots.middle];
  // of two without a side the second one goes where the first isn't
  const two = !side && alike === 2 ? [spots.left, spots.right] : order;
  return firstFree(taken, [...two, ...WIDE], 0.09);
}
