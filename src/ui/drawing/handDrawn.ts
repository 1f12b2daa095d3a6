/** Shapes as a hand draws them: never quite round, and closed a little past where they began. The same every time. */
import type { Point } from '../../sheet/drawing/geometry';

/** −1…1, by a number */
const waver = (n: number): number => {
  const x = Math.sin(n * 12.9898) * 43758.5453;
  return 2 * (x - Math.floor(x)) - 1;
};

/** of its size */
const WAVER = 0.022;
const CORNERS = 10;

/** A ring as an SVG path. @param reach half its width and half its height */
export function ringPath({ x, y }: Point, reach: Point, seed: number): string {
  const start = waver(seed) * Math.PI;
  const on = Array.from({ length: CORNERS + 2 }, (_, i): Point => {
    const angle = start + (2 * Math.PI * i) / CORNERS;
    // the end overlaps the beginning, a little outside it
    const by = 1 + WAVER * waver(seed + 7 * (i % CORNERS) + 1) + (i >= CORNERS ? 0.012 : 0);
    return { x: x + reach.x * by * Math.cos(angle), y: y + reach.y * by * Math.sin(angle) };
  });
  return smooth(on);
}

/** A box with soft corners. */
export function boxPath({ x, y }: Point, reach: Point, seed: number): string {
  const off = (n: number): number => WAVER * Math.min(reach.x, reach.y) * waver(seed + n);
  const corner = (dx: number, dy: number, n: number): Point => ({
    x: x + dx * reach.x + off(n),
    y: y + dy * reach.y + off(n + 50),
  });
  const round: readonly (readonly [number, number])[] = [
    [-0.86, -1],
    [0, -1],
    [0.86, -1],
    [1, -0.9],
    [1, 0],
    [1, 0.9],
    [0.86, 1],
    [0, 1],
    [-0.86, 1],
    [-1, 0.9],
    [-1, 0],
    [-1, -0.9],
    [-0.86, -1.01],
    [-0.6, -1],
  ];
  return smooth(round.map(([dx, dy], n) => corner(dx, dy, n)));
}

/** Through all points, as one stroke. */
function smooth(points: readonly Point[]): string {
  const text = (n: number): string => n.toFixed(1);
  const [first, ...rest] = points as [Point, ...Point[]];
  let path = `M${text(first.x)} ${text(first.y)}`;
  for (const [i, to] of rest.entries()) {
    const from = points[i] as Point;
    const before = points[i - 1] ?? from;
    const after = points[i + 2] ?? to;
    const c1 = { x: from.x + (to.x - before.x) / 6, y: from.y + (to.y - before.y) / 6 };
    const c2 = { x: to.x - (after.x - from.x) / 6, y: to.y - (after.y - from.y) / 6 };
    path += `C${text(c1.x)} ${text(c1.y)} ${text(c2.x)} ${text(c2.y)} ${text(to.x)} ${text(to.y)}`;
  }
  return path;
}
