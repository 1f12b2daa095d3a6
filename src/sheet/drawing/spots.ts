/** Where names and marks go, so that they cover neither each other nor what they name. Nothing is drawn by lot. */
import { along, type Box, type Curve, onCurve, outside, overlap, type Point } from './geometry';

export interface Size {
  width: number;
  height: number;
}

/** A point that lies under it costs as much as so much shared area. */
const LINE_POINT = 14;
const OUTSIDE = 1e5;

function countUnder({ x, y }: LinePoints, box: Box): number {
  let count = 0;
  const [halfWide, halfHigh] = [box.width / 2, box.height / 2];
  for (let i = 0; i < x.length; i++)
    if (Math.abs((x[i] as number) - box.x) < halfWide && Math.abs((y[i] as number) - box.y) < halfHigh) count++;
  return count;
}

/** The least bad of the boxes; the earlier of equal ones. `cost`: 0 where it covers nothing. */
function leastOf(
  boxes: readonly Box[],
  taken: readonly Box[],
  points: LinePoints,
  size: Size,
): { box: Box; covers: number; cost: number } {
  let best: { box: Box; covers: number; cost: number } | null = null;
  for (const box of boxes) {
    const past = outside(box, size);
    const covers = taken.reduce((sum, other) => sum + overlap(box, other), past * OUTSIDE);
    // where it covers a box it is out of the question anyway
    const under = covers > 0 ? 0 : countUnder(points, box);
    const cost = covers * 20 + under * LINE_POINT;
    if (best === null || cost < best.cost - 1e-9) best = { box, covers, cost };
    if (best.cost === 0) break;
  }
  return best as { box: Box; covers: number; cost: number };
}

/**
 * A microphone's name: beside, below or above it.
 * @param reach of the microphone itself
 * @returns null: none of the places is free
 */
export function nameSpot(
  at: Point,
  reach: number,
  name: Size,
  taken: readonly Box[],
  points: LinePoints,
  size: Size,
): Box | null {
  const aside = reach + 3 + name.width / 2;
  const over = reach + 2 + name.height / 2;
  const places: readonly (readonly [number, number])[] = [
    [0, over],
    [0, -over],
    [aside, 0],
    [-aside, 0],
    [aside * 0.6, over],
    [-aside * 0.6, over],
    [aside * 0.6, -over],
    [-aside * 0.6, -over],
    [aside - reach, over],
    [reach - aside, over],
    [aside - reach, -over],
    [reach - aside, -over],
  ];
  const { box, covers } = leastOf(
    places.map(([dx, dy]) => ({ x: at.x + dx, y: at.y + dy, ...name })),
    taken,
    points,
    size,
  );
  return covers === 0 ? box : null;
}

/** Along the line, from its middle outwards. */
const ALONG = [0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82];

export interface MarkSpot {
  box: Box;
  /** the point of the line that it belongs to */
  anchor: Point;
}

/** Nearer than this to another line a mark might be taken for that one's, in the drawing's units. */
const CLEAR = 4;

/** All points of all lines, in rows: asked for tens of thousands of times a drawing. */
export interface LinePoints {
  x: Float64Array;
  y: Float64Array;
  /** number of its line */
  line: Int32Array;
}

export function linePoints(lines: readonly (readonly Point[])[]): LinePoints {
  const all = lines.flatMap((points, line) => points.map(({ x, y }) => ({ x, y, line })));
  return {
    x: Float64Array.from(all, ({ x }) => x),
    y: Float64Array.from(all, ({ y }) => y),
    line: Int32Array.from(all, ({ line }) => line),
  };
}

/** Does another line run under a box, or as near as that? */
function touches({ x, y, line }: LinePoints, own: number, at: Point, halfWide: number, halfHigh: number): boolean {
  for (let i = 0; i < x.length; i++)
    if (line[i] !== own && Math.abs((x[i] as number) - at.x) < halfWide && Math.abs((y[i] as number) - at.y) < halfHigh)
      return true;
  return false;
}

/**
 * A line's mark: on it, else beside it; never on another line.
 * @param own the line's number among the points
 * @returns null: nowhere is room
 */
export function markSpot(
  curve: Curve,
  own: number,
  mark: Size,
  taken: readonly Box[],
  points: LinePoints,
  size: Size,
): MarkSpot | null {
  const long = Math.hypot(curve.q.x - curve.p.x, curve.q.y - curve.p.y) || 1;
  const across = { x: -(curve.q.y - curve.p.y) / long, y: (curve.q.x - curve.p.x) / long };
  // far enough that the line runs along its edge
  const off = (Math.abs(across.x) * mark.width + Math.abs(across.y) * mark.height) / 2 + 3;
  const far = off + mark.height + 4;
  const [halfWide, halfHigh] = [mark.width / 2 + CLEAR, mark.height / 2 + CLEAR];
  for (const by of [0, off, -off, far, -far])
    for (const t of ALONG) {
      const anchor = onCurve(curve, t);
      const box = { x: anchor.x + by * across.x, y: anchor.y + by * across.y, ...mark };
      if (outside(box, size) > 0 || taken.some((other) => overlap(box, other) > 0)) continue;
      if (touches(points, own, box, halfWide, halfHigh)) continue;
      if (Math.abs(by) < far || leads(anchor, box, own, points)) return { box, anchor };
    }
  return null;
}

/** Directions and distances that are looked at round a place of the line, the latter in heights of the mark. */
const DIRECTIONS = 16;
const ASIDE = [1.5, 2, 2.5, 3, 4, 5, 6];
const FAR_ASIDE = [...ASIDE, 7, 8, 10];
const FROM = [0.5, 0.34, 0.66, 0.18, 0.82];
/** Points on all lines: where there are more, a mark far from its line couldn't be followed, and looking takes long. */
const MOST_POINTS = 1500;

const within = (on: Point, box: Box): boolean =>
  Math.abs(on.x - box.x) < box.width / 2 && Math.abs(on.y - box.y) < box.height / 2;

/**
 * Farther from its line, where a stroke leads to it that crosses no name and no mark.
 * @param crossing whether the stroke may cross other lines
 * @returns null: nowhere is room
 */
export function asideSpot(
  curve: Curve,
  own: number,
  mark: Size,
  taken: readonly Box[],
  points: LinePoints,
  size: Size,
  crossing: boolean,
): MarkSpot | null {
  if (points.x.length > MOST_POINTS) return null;
  const [halfWide, halfHigh] = [mark.width / 2 + CLEAR, mark.height / 2 + CLEAR];
  for (const r of crossing ? FAR_ASIDE : ASIDE)
    for (const t of FROM)
      for (let k = 0; k < DIRECTIONS; k++) {
        const anchor = onCurve(curve, t);
        const angle = (2 * Math.PI * k) / DIRECTIONS;
        const by = { x: r * mark.height * Math.cos(angle), y: r * mark.height * Math.sin(angle) };
        const box = { x: anchor.x + by.x, y: anchor.y + by.y, ...mark };
        if (outside(box, size) > 0 || taken.some((other) => overlap(box, other) > 0)) continue;
        if (touches(points, own, box, halfWide, halfHigh)) continue;
        const stroke = along({ p: anchor, q: box, bend: 0 }, POINTS);
        const clear = stroke.every((on) => taken.every((other) => !within(on, other)));
        if (clear && (crossing || leads(anchor, box, own, points))) return { box, anchor };
      }
  return null;
}

/** Anywhere near the line's middle, also on other lines: for a mark that must be seen. @returns null: all is full */
export function anySpot(curve: Curve, mark: Size, taken: readonly Box[], size: Size): MarkSpot | null {
  const anchor = onCurve(curve, 0.5);
  const reach = Math.hypot(size.width, size.height);
  for (let r = 0; r < reach; r += mark.height / 2)
    for (let k = 0; k < 16; k++) {
      const angle = (2 * Math.PI * k) / 16;
      const box = { x: anchor.x + r * Math.cos(angle), y: anchor.y + r * Math.sin(angle), ...mark };
      if (outside(box, size) === 0 && taken.every((other) => overlap(box, other) === 0)) return { box, anchor };
    }
  return null;
}

/** Does the stroke from the line to a mark that stands aside cross no other line? */
const leads = (anchor: Point, box: Point, own: number, points: LinePoints): boolean =>
  along({ p: anchor, q: box, bend: 0 }, POINTS).every((on) => !touches(points, own, on, CLEAR, CLEAR));

/** How many places of each line are looked at. */
const POINTS = 24;

const BENDS = [0, 0.5, -0.5, 1, -1, 1.6, -1.6, 2.4, -2.4];
const CROWD_BENDS = [0, 0.5, -0.5];

/**
 * The line between two microphones: straight, or bent where it would run over another microphone or another line between the
 * same two.
 * @param crowd so many lines that few ways must do
 */
export function lineBetween(
  p: Point,
  q: Point,
  others: readonly Point[],
  reach: number,
  same: number,
  crowd: boolean,
): Curve {
  const long = Math.hypot(q.x - p.x, q.y - p.y);
  const step = Math.max(reach, 0.12 * long);
  const bends = (crowd ? CROWD_BENDS : BENDS).map((k) => k * step);
  const clear = (bend: number): boolean =>
    along({ p, q, bend }, POINTS).every((on) => others.every((one) => Math.hypot(one.x - on.x, one.y - on.y) > reach));
  // lines between the same two lie beside each other
  const free = bends.filter(clear);
  return { p, q, bend: free[same] ?? bends[same % bends.length] ?? 0 };
}
