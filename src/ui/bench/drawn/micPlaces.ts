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
/** where the drawing ends it may be shorter, down to that share of its width */
const LEAST_SHARE = 0.7;
/** from the drawing's edge, px */
const EDGE = 3;
/** half of a length as it is written, in letters */
const LABEL_WIDE = 2.1;
const LABEL_HIGH = 0.4;
/** a shorter path has no room for its length, in letters */
const SHORT_PATH = 4.6;
/** where along the path it stands: nearer to the mic than to the drum and its stick */
const ALONG = 0.6;
/** half of a mic's letter, in letters */
const LETTER = { wide: 0.7, high: 0.8 } as const;

interface Body {
  long: number;
  wide: number;
  /** from the place hit outwards, degrees */
  turn: number;
}

/** Shorter where the drawing ends. */
export function bodyOf(bench: Bench, mic: MicId, scale: Scale): Body {
  const hit = at(scale, hitPlace(bench).at);
  const grille = at(scale, bench[mic].grille);
  const wide = Math.max(LEAST_WIDE, WIDE_CM * scale.perCm);
  const turn = Math.atan2(grille.y - hit.y, grille.x - hit.x);
  const [dx, dy] = [Math.cos(turn), Math.sin(turn)];
  /** from the grille to the edge that it points to, along one axis; its width is turned as well */
  const room = (from: number, size: number, along: number, across: number): number => {
    const left = (along > 0 ? size - from : from) - EDGE - (Math.abs(across) * wide) / 2;
    return Math.abs(along) < 1e-6 ? Number.POSITIVE_INFINITY : left / Math.abs(along);
  };
  const most = Math.min(room(grille.x, scale.width, dx, dy), room(grille.y, scale.height, dy, dx));
  const usual = Math.max(LEAST_LONG, (LONG_CM + bench[mic].bodyCm / 2) * scale.perCm);
  return { long: Math.max(LEAST_SHARE * wide, Math.min(usual, most)), wide, turn: (turn * 180) / Math.PI };
}

/** Behind the body; where the drawing ends, beside it. */
export function letterOf(bench: Bench, mic: MicId, scale: Scale): Point {
  const { long, wide, turn } = bodyOf(bench, mic, scale);
  const { letters } = scale;
  const grille = at(scale, bench[mic].grille);
  const angle = (turn * Math.PI) / 180;
  const [dx, dy] = [Math.cos(angle), Math.sin(angle)];
  const from = (along: number, up: number): Point => ({
    x: grille.x + along * dx + up * dy,
    y: grille.y + along * dy - up * dx,
  });
  const fits = (point: Point): boolean => {
    const kept = inside(scale, point, LETTER.wide, LETTER.high);
    return kept.x === point.x && kept.y === point.y;
  };
  const off = wide / 2 + 0.8 * letters;
  // above it rather than below
  const sides = dx >= 0 ? [off, -off] : [-off, off];
  const places = [from(long + 0.8 * letters, 0), ...sides.map((side) => from(0.6 * long, side))];
  return places.find(fits) ?? inside(scale, places[0] as Point, LETTER.wide, LETTER.high);
}

/** Beside the path, on its outer side; of a short path, beyond the letter. */
export function lengthPlace(bench: Bench, mic: MicId, scale: Scale): Point {
  const hit = at(scale, hitPlace(bench).at);
  const end = at(scale, capsuleAt(bench, bench[mic]));
  const { letters } = scale;
  const [dx, dy] = [end.x - hit.x, end.y - hit.y];
  const long = Math.hypot(dx, dy);
  if (long < SHORT_PATH * letters) {
    const letter = letterOf(bench, mic, scale);
    const beside = (LABEL_WIDE + LETTER.wide) * letters;
    const beyond = { x: letter.x, y: letter.y + (dy > 0 ? 1.35 : -1.35) * letters };
    const places = [beyond, { x: letter.x + beside, y: letter.y }, { x: letter.x - beside, y: letter.y }].map((place) =>
      inside(scale, place, LABEL_WIDE, 0.8),
    );
    return places.find((place) => !onBody(bench, mic, scale, place)) ?? (places[0] as Point);
  }
  const out = Math.abs(dx) > 3 ? Math.sign(dx) : mic === 'a' ? -1 : 1;
  // of the line's two normals the one that points outwards
  const turn = dy < 0 ? out : -out;
  const normal = { x: (-dy / long) * turn, y: (dx / long) * turn };
  const off = LABEL_WIDE * letters * Math.abs(normal.x) + 0.6 * letters * Math.abs(normal.y) + 0.5 * letters;
  const place = { x: hit.x + ALONG * dx + off * normal.x, y: hit.y + ALONG * dy + off * normal.y };
  return inside(scale, place, LABEL_WIDE, 0.8);
}

/** Whether a length there would lie on the mic's own body. */
export function onBody(bench: Bench, mic: MicId, scale: Scale, place: Point): boolean {
  const { long, wide, turn } = bodyOf(bench, mic, scale);
  const grille = at(scale, bench[mic].grille);
  const angle = (turn * Math.PI) / 180;
  for (let i = 0; i <= 8; i++) {
    const along = (i / 8) * long;
    const dx = Math.abs(grille.x + along * Math.cos(angle) - place.x) - LABEL_WIDE * scale.letters;
    const dy = Math.abs(grille.y + along * Math.sin(angle) - place.y) - LABEL_HIGH * scale.letters;
    if (Math.hypot(Math.max(0, dx), Math.max(0, dy)) < wide / 2) return true;
  }
  return false;
}

/** @param wide, high half of what stands there, in letters */
const inside = ({ width, height, letters }: Scale, { x, y }: Point, wide: number, high: number): Point => ({
  x: Math.min(width - wide * letters, Math.max(wide * letters, x)),
  y: Math.min(height - high * letters, Math.max(high * letters, y)),
});
