/** Points and boxes of the drawing. Units are those of the size that it is drawn in: pixels on a screen, points on paper. */

export interface Point {
  x: number;
  y: number;
}

/** x and y: its middle */
export interface Box extends Point {
  width: number;
  height: number;
}

export const distance = (p: Point, q: Point): number => Math.hypot(p.x - q.x, p.y - q.y);

/** The area that two boxes share. */
export function overlap(p: Box, q: Box): number {
  const wide = (p.width + q.width) / 2 - Math.abs(p.x - q.x);
  const high = (p.height + q.height) / 2 - Math.abs(p.y - q.y);
  return wide > 0 && high > 0 ? wide * high : 0;
}

/** How far the box sticks out of the drawing, both ways added up. */
export function outside({ x, y, width, height }: Box, size: { width: number; height: number }): number {
  const past = (middle: number, long: number, all: number): number =>
    Math.max(0, long / 2 - middle) + Math.max(0, middle + long / 2 - all);
  return past(x, width, size.width) + past(y, height, size.height);
}

/** A quadratic curve from p to q; `bend`: how far its middle lies off the straight line, to the left as one goes. */
export interface Curve {
  p: Point;
  q: Point;
  bend: number;
}

const control = ({ p, q, bend }: Curve): Point => {
  const long = distance(p, q) || 1;
  return {
    x: (p.x + q.x) / 2 + (2 * bend * (q.y - p.y)) / long,
    y: (p.y + q.y) / 2 - (2 * bend * (q.x - p.x)) / long,
  };
};

/** @param t 0: p, 1: q */
export function onCurve(curve: Curve, t: number): Point {
  const c = control(curve);
  const { p, q } = curve;
  const of = (a: number, b: number, d: number): number => (1 - t) ** 2 * a + 2 * t * (1 - t) * b + t * t * d;
  return { x: of(p.x, c.x, q.x), y: of(p.y, c.y, q.y) };
}

/** Points along it, without its ends. */
export const along = (curve: Curve, count: number): Point[] =>
  Array.from({ length: count }, (_, i) => onCurve(curve, (i + 1) / (count + 1)));

/** As an SVG path has it. */
export function curvePath(curve: Curve): string {
  const { p, q, bend } = curve;
  const start = `M${p.x.toFixed(1)} ${p.y.toFixed(1)}`;
  const end = `${q.x.toFixed(1)} ${q.y.toFixed(1)}`;
  if (bend === 0) return `${start}L${end}`;
  const c = control(curve);
  return `${start}Q${c.x.toFixed(1)} ${c.y.toFixed(1)} ${end}`;
}
