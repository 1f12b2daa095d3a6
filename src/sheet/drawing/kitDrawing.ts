/** The kit from above, ready to be drawn: where everything lies in a drawing of a given size, and which marks have room. */
import type { KitSheet } from '../document/model';
import { along, type Box, type Curve, curvePath, distance, onCurve, outside, overlap, type Point } from './geometry';
import { type PairMark, rankOf } from './pairMarks';
import { type DrumPlace, type DrumShape, drumPlacesOf, microphonePlaces, STOOL } from './places';
import { lineBetween, type MarkSpot, markSpot, nameSpot, type Size } from './spots';
import { shortText, textWidth } from './textSize';

export interface DrawnSize extends Size {
  /** height of the letters, in the drawing's units */
  letters: number;
}

export interface DrawnDrum {
  drum: string;
  shape: DrumShape;
  at: Point;
  /** half its width and half its height */
  reach: Point;
  /** its name, somewhere within; null: no room */
  name: Box | null;
}

export interface DrawnMicrophone {
  id: string;
  at: Point;
  /** where it is patched, short enough to stand in it; empty: it says nothing */
  number: string;
  /** name, and what is to be done with it */
  lines: string[];
  name: Box | null;
}

export interface DrawnPair {
  mark: PairMark;
  /** SVG path */
  path: string;
  middle: Point;
  /** where its mark has room; null: nowhere, so that it is shown when it is pointed at */
  spot: MarkSpot | null;
}

export interface KitDrawing {
  size: DrawnSize;
  /** of a microphone's circle */
  reach: number;
  drums: DrawnDrum[];
  microphones: DrawnMicrophone[];
  pairs: DrawnPair[];
  /** where the drummer sits, with its name below */
  stool: { at: Point; reach: number; name: Box };
  places: DrumPlace[];
}

/** letters of a name on the drawing */
const NAME_LETTERS = 22;
/** of a line's height, in letters */
const LINE = 1.25;
/** a shape before a mark's second line, and the room round its text, in letters */
export const SHAPE = 1.3;
const ROUND = 0.5;

/** Where nothing is left to do, a shape says so: the line below is spared. */
export const markLines = ({ found, left, state }: PairMark): string[] =>
  (state === 'todo' || found === '' ? [found, left] : [found]).filter((text) => text !== '');

export function markSize(mark: PairMark, letters: number): Size {
  const lines = markLines(mark);
  const last = lines.at(-1) ?? '';
  const wide = Math.max(...lines.map((text) => textWidth(text, letters)), textWidth(last, letters) + SHAPE * letters);
  return { width: wide + 2 * ROUND * letters, height: (lines.length * LINE + 0.5) * letters };
}

/**
 * @param said beside a microphone's name, by id: what is to be done with it
 * @throws nothing: whatever the places, something is drawn
 */
export function kitDrawing(
  sheet: KitSheet,
  marks: readonly PairMark[],
  said: ReadonlyMap<string, string>,
  size: DrawnSize,
): KitDrawing {
  const { letters } = size;
  const reach = 0.85 * letters;
  const places = drumPlacesOf(sheet);
  const edge = reach + 2;
  const on = ({ x, y }: Point): Point => ({
    x: edge + x * (size.width - 2 * edge),
    y: edge + y * (size.height - 2 * edge),
  });
  const micPlaces = microphonePlaces(sheet, places);
  const at = new Map([...micPlaces].map(([id, place]) => [id, on(place)]));
  const dots = [...at.values()].map((point): Box => ({ ...point, width: 2 * reach + 2, height: 2 * reach + 2 }));
  const unit = Math.min(size.width / 78, size.height / 62);
  const stool = stoolAt(on(STOOL), unit, letters);
  const seat = { ...stool.at, width: 2 * stool.reach, height: 2 * stool.reach };
  const taken: Box[] = [...dots, seat, stool.name];
  const lines = linesOf(sheet, marks, at, reach);
  const points = lines.flatMap((line) => line.points);
  const microphones = sheet.microphones.map((one): DrawnMicrophone => {
    const note = said.get(one.id) ?? '';
    const lines = [shortText(one.label.trim() || 'unnamed', NAME_LETTERS), ...(note ? [note] : [])];
    const here = at.get(one.id) as Point;
    const spot = nameSpot(here, reach, linesSize(lines, letters), taken, points, size);
    if (spot) taken.push(spot);
    const input = one.input.trim();
    return { id: one.id, at: here, number: input.length <= 2 ? input : '', lines, name: spot };
  });
  const drums = places.map(({ drum, shape, place }): DrawnDrum => {
    const middle = on(place);
    const half = reachOf(shape, unit);
    const name = linesSize([shortText(drum, NAME_LETTERS)], letters);
    const tries = [0, 0.45, -0.45, 0.8, -0.8].map((k) => ({ x: middle.x, y: middle.y + k * half.y, ...name }));
    const [spot] = tries.filter((box) => isFree(box, taken, size));
    if (spot) taken.push(spot);
    return { drum, shape, at: middle, reach: half, name: spot ?? null };
  });
  const spots = new Map<string, MarkSpot>();
  const byRank = lines.toSorted((p, q) => rankOf(p.mark) - rankOf(q.mark));
  for (const { mark, curve } of byRank) {
    const empty = mark.found === '' && mark.left === '';
    if (empty) continue;
    const others = lines.flatMap((line) => (line.mark === mark ? [] : line.points));
    const spot = markSpot(curve, markSize(mark, letters), taken, others, size);
    if (!spot) continue;
    taken.push(spot.box);
    spots.set(mark.pair, spot);
  }
  const pairs = lines.map(
    ({ mark, curve }): DrawnPair => ({
      mark,
      path: curvePath(curve),
      middle: onCurve(curve, 0.5),
      spot: spots.get(mark.pair) ?? null,
    }),
  );
  return { size, reach, drums, microphones, pairs, stool, places };
}

export const DRUMMER = 'drummer';

function stoolAt(at: Point, unit: number, letters: number): KitDrawing['stool'] {
  const reach = 3.4 * unit;
  const name = linesSize([DRUMMER], letters);
  return { at, reach, name: { x: at.x, y: at.y + reach + name.height / 2, ...name } };
}

const isFree = (box: Box, taken: readonly Box[], size: Size): boolean =>
  outside(box, size) === 0 && taken.every((other) => overlap(box, other) === 0);

const linesSize = (lines: readonly string[], letters: number): Size => ({
  width: Math.max(...lines.map((text) => textWidth(text, letters))) + 2,
  height: (lines.length * LINE + 0.15) * letters,
});

function reachOf(shape: DrumShape, unit: number): Point {
  if (shape === 'kick') return { x: 7.4 * unit, y: 8.6 * unit };
  return shape === 'cymbal' ? { x: 6.6 * unit, y: 6.6 * unit } : { x: 7.2 * unit, y: 7.2 * unit };
}

interface Line {
  mark: PairMark;
  curve: Curve;
  /** so near to each other that nothing slips between */
  points: Point[];
}

function linesOf(sheet: KitSheet, marks: readonly PairMark[], at: ReadonlyMap<string, Point>, reach: number): Line[] {
  const count = new Map<string, number>();
  const byPair = new Map(sheet.pairs.map((pair) => [pair.id, pair]));
  return marks.flatMap((mark): Line[] => {
    const pair = byPair.get(mark.pair);
    const [p, q] = [pair && at.get(pair.a), pair && at.get(pair.b)];
    if (!pair || !p || !q) return [];
    // named from one side, so that two lines between the same two don't bend onto each other
    const key = [pair.a, pair.b].toSorted().join(' ');
    const same = count.get(key) ?? 0;
    count.set(key, same + 1);
    const others = [...at.values()].filter((one) => one !== p && one !== q);
    const [from, to] = pair.a <= pair.b ? [p, q] : [q, p];
    const curve = lineBetween(from, to, others, reach + 3, same);
    // from rim to rim
    const long = distance(from, to);
    const cut = long > 2.5 * reach ? reach / long : 0;
    const ends = { p: onCurve(curve, cut), q: onCurve(curve, 1 - cut) };
    const drawn = { ...ends, bend: curve.bend * (1 - 2 * cut) };
    return [{ mark, curve: drawn, points: along(drawn, Math.min(60, Math.ceil(long / 9))) }];
  });
}
