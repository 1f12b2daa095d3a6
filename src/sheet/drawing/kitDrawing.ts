/** The kit from above, ready to be drawn: where everything lies in a drawing of a given size, and which marks have room. */

import { microphoneName } from '../../text/names';
import type { KitSheet } from '../document/model';
import { filling } from './filling';
import { along, type Box, type Curve, curvePath, distance, onCurve, type Point } from './geometry';
import { labels, MANY } from './labels';
import { type PairMark, rankOf } from './pairMarks';
import { type DrumPlace, type DrumShape, drumPlacesOf, microphonePlaces, STOOL } from './places';
import { lineBetween, type MarkSpot, type Size } from './spots';
import { shortText, textWidth } from './textSize';

export interface DrawnSize extends Size {
  /** height of the letters, in the drawing's units */
  letters: number;
  /** paper: what there is fills the drawing, without the drummer's place */
  filled?: boolean;
  /** it is drawn anew many times a second, while something is dragged */
  hasty?: boolean;
}

/** On paper, in points: as wide as the narrower paper's text; of these heights the first at which most has room. */
export function paperSizes(microphones: number): DrawnSize[] {
  const heights =
    microphones <= 4 ? [150] : microphones <= 10 ? [168, 175, 182] : microphones <= 14 ? [175, 182] : [225];
  return heights.map((height) => ({ width: 538, height, letters: 9, filled: true }));
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
export const SHAPE = 1.15;
const ROUND = 0.35;

/** Where nothing is left to do, a shape says so: the line below is spared. */
export const markLines = ({ found, left, state }: PairMark): string[] =>
  (state === 'todo' || found === '' ? [found, left] : [found]).filter((text) => text !== '');

export function markSize(mark: PairMark, letters: number): Size {
  const lines = markLines(mark);
  const last = lines.at(-1) ?? '';
  const wide = Math.max(...lines.map((text) => textWidth(text, letters)), textWidth(last, letters) + SHAPE * letters);
  return { width: wide + 2 * ROUND * letters, height: (lines.length * LINE + 0.5) * letters };
}

/** @param said beside a microphone's name, by id: what is to be done with it */
export function kitDrawing(
  sheet: KitSheet,
  marks: readonly PairMark[],
  said: ReadonlyMap<string, string>,
  size: DrawnSize,
): KitDrawing {
  const { letters } = size;
  const reach = 0.85 * letters;
  const usual = drumPlacesOf(sheet);
  const { drums: places, microphones: micPlaces } = size.filled
    ? filling(usual, microphonePlaces(sheet, usual))
    : { drums: usual, microphones: microphonePlaces(sheet, usual) };
  const edge = reach + 2;
  const on = ({ x, y }: Point): Point => ({
    x: edge + x * (size.width - 2 * edge),
    y: edge + y * (size.height - 2 * edge),
  });
  const at = new Map([...micPlaces].map(([id, place]) => [id, on(place)]));
  const unit = Math.min(size.width / 78, size.height / 62);
  const stool = stoolAt(on(STOOL), unit, letters);
  const dots = [...at.values()].map((point): Box => ({ ...point, width: 2 * reach + 2, height: 2 * reach + 2 }));
  const seat = { ...stool.at, width: 2 * stool.reach, height: 2 * stool.reach };
  const lines = linesOf(sheet, marks, at, reach);
  const named = sheet.microphones.map(({ id, label, input }) => {
    const note = said.get(id) ?? '';
    const texts = [shortText(microphoneName(label), NAME_LETTERS), ...(note ? [note] : [])];
    const number = input.trim().length <= 2 ? input.trim() : '';
    return { id, at: at.get(id) as Point, number, lines: texts, room: linesSize(texts, letters) };
  });
  const skins = places.map(({ drum, shape, place }) => {
    const half = reachOf(shape, unit);
    return { drum, shape, at: on(place), reach: half, room: linesSize([shortText(drum, NAME_LETTERS)], letters) };
  });
  const found = labels({
    size,
    reach,
    taken: size.filled ? dots : [...dots, seat, stool.name],
    names: named,
    skins,
    marks: lines
      .map((one, line) => ({ ...one, line }))
      .filter(({ mark }) => markLines(mark).length > 0)
      .toSorted((p, q) => rankOf(p.mark) - rankOf(q.mark))
      .map(({ mark, curve, line }) => ({
        id: mark.pair,
        line,
        curve,
        room: markSize(mark, letters),
        urgent: rankOf(mark) <= 1,
        next: mark.next,
      })),
    lines: lines.map(({ points }) => points),
    hasty: size.hasty ?? false,
    crossing: size.filled ?? false,
  });
  return {
    size,
    reach,
    drums: skins.map(({ room: _room, ...drum }, i) => ({ ...drum, name: found.skins[i] ?? null })),
    microphones: named.map(({ room: _room, ...one }, i) => ({ ...one, name: found.names[i] ?? null })),
    pairs: lines.map(({ mark, curve }) => ({
      mark,
      path: curvePath(curve),
      middle: onCurve(curve, 0.5),
      spot: found.marks.get(mark.pair) ?? null,
    })),
    stool,
    places,
  };
}

/** The drawing for paper, where nothing can be pointed at: what has no room isn't seen. */
export function paperDrawing(sheet: KitSheet, marks: readonly PairMark[]): KitDrawing {
  const all = paperSizes(sheet.microphones.length).map((size) => kitDrawing(sheet, marks, new Map(), size));
  const missing = ({ pairs, microphones }: KitDrawing): number =>
    pairs.filter(({ mark, spot }) => spot === null && markLines(mark).length > 0).length +
    microphones.filter(({ name }) => name === null).length;
  return all.reduce((best, one) => (missing(one) < missing(best) ? one : best));
}

export const DRUMMER = 'drummer';

function stoolAt(at: Point, unit: number, letters: number): KitDrawing['stool'] {
  const reach = 3.4 * unit;
  const name = linesSize([DRUMMER], letters);
  return { at, reach, name: { x: at.x, y: at.y + reach + name.height / 2, ...name } };
}

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
    const curve = lineBetween(from, to, others, reach + 3, same, marks.length > MANY);
    // from rim to rim
    const long = distance(from, to);
    const cut = long > 2.5 * reach ? reach / long : 0;
    const ends = { p: onCurve(curve, cut), q: onCurve(curve, 1 - cut) };
    const drawn = { ...ends, bend: curve.bend * (1 - 2 * cut) };
    return [
      { mark, curve: drawn, points: along(drawn, Math.min(60, Math.ceil(long / (marks.length > MANY ? 24 : 9)))) },
    ];
  });
}
