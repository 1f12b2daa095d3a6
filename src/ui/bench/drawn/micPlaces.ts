/** Where in the drawing a mic’s body, its letter and the length of its path stand, px. */
import { capsuleAt, hitPlace } from '../../../teaching/bench/drums';
import type { Bench, MicId } from '../../../teaching/bench/model';
import { at, type Scale } from './scale';

interface Point {
  x: number;
  y: number;
}

/** a body is drawn no smaller, px */
const LEAST_LONG = 62;
const LEAST_WIDE = 20;
/** where there is room for it, cm */
const LONG_CM = 15;
const WIDE_CM = 4.4;
/** half of a length as it is written, in letters */
const LABEL_WIDE = 2.1;
/** a shorter path has no room for its length, in letters */
const SHORT_PATH = 4.6;

/** Its size, and its turn from the place hit outwards, degrees. */
export function bodyOf(bench: Bench, mic: MicId, scale: Scale): { long: number; wide: number; turn: number } {
  const hit = at(scale, hitPlace(bench).at);
  const grille = at(scale, bench[mic].grille);
  return {
    long: Math.max(LEAST_LONG, (LONG_CM + bench[mic].bodyCm / 2) * scale.perCm),
    wide: Math.max(LEAST_WIDE, WIDE_CM * scale.perCm),
    turn: (Math.atan2(grille.y - hit.y, grille.x - hit.x) * 180) / Math.PI,
  };
}

/** Behind the body, within the drawing. */
export function letterOf(bench: Bench, mic: MicId, scale: Scale): Point {
  const { long, turn } = bodyOf(bench, mic, scale);
  const grille = at(scale, bench[mic].grille);
  const out = long + 0.8 * scale.letters;
  const angle = (turn * Math.PI) / 180;
  return inside(scale, { x: grille.x + out * Math.cos(angle), y: grille.y + out * Math.sin(angle) }, 0.7, 0.8);
}

/** Beside the middle of the path, on its outer side; of a short path, beyond the letter. */
export function lengthPlace(bench: Bench, mic: MicId, scale: Scale): Point {
  const hit = at(scale, hitPlace(bench).at);
  const end = at(scale, capsuleAt(bench, bench[mic]));
  const { letters } = scale;
  const [dx, dy] = [end.x - hit.x, end.y - hit.y];
  const long = Math.hypot(dx, dy);
  if (long < SHORT_PATH * letters) {
    const letter = letterOf(bench, mic, scale);
    return inside(scale, { x: letter.x, y: letter.y + (dy > 0 ? 1.35 : -1.35) * letters }, LABEL_WIDE, 0.8);
  }
  const out = Math.abs(dx) > 3 ? Math.sign(dx) : mic === 'a' ? -1 : 1;
  // of the line's two normals the one that points outwards
  const turn = dy < 0 ? out : -out;
  const normal = { x: (-dy / long) * turn, y: (dx / long) * turn };
  const off = LABEL_WIDE * letters * Math.abs(normal.x) + 0.6 * letters * Math.abs(normal.y) + 0.5 * letters;
  return inside(scale, { x: hit.x + dx / 2 + off * normal.x, y: hit.y + dy / 2 + off * normal.y }, LABEL_WIDE, 0.8);
}

/** @param wide, high half of what stands there, in letters */
const inside = ({ width, height, letters }: Scale, { x, y }: Point, wide: number, high: number): Point => ({
  x: Math.min(width - wide * letters, Math.max(wide * letters, x)),
  y: Math.min(height - high * letters, Math.max(high * letters, y)),
});
