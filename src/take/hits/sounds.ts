/**
 * The sounds of a kit: how loud each drum is in each track and band, its force taken out. Moments that are alike in that are one
 * drum's; what is the sum of two others is no drum of its own.
 */
import { BANDS } from '../scan/levelScan';
import type { Moment } from './events';

/** levels so far below a moment's loudest tell nothing. These four were chosen on the takes of a real kit. */
const DEPTH_DB = 40;
/** moments that lie nearer to each other than that are one drum's, dB (RMS over tracks and bands) */
const ALIKE_DB = 3;
/** of two shapes so much is known of both, or they aren't compared */
const LEAST_SHARE = 0.35;
/** a sound is one that was heard so often */
const LEAST_HITS = 2;
/** a sound that two others make up to within that, dB, is those two struck at once */
const MADE_UP_DB = 3.5;
/** or that others make up to within so many dB, and that share of the way to the nearest of them: real toms lie above 0.6, strokes of two at once below 0.15 */
const CLEARLY_DB = 1.5;
const CLEARLY_SHARE = 0.3;
/** two of three at once come that much nearer than the nearer one alone */
const BEGUN_SHARE = 0.6;
/** moments that are compared with each other; all others are compared with the sounds found */
const COMPARED = 500;

/** dB a track and band, re each track's loudest moments; 0 at its loudest */
export type Shape = Float64Array;

export interface Sound {
  shape: Shape;
  /** moments that it was found in */
  hits: number;
}

/** @param tops level of each track's loudest moments, dB */
export function shapeOf({ levels }: Moment, tops: readonly number[]): Shape {
  const shape = levels.map((level, i) => level - (tops[Math.floor(i / BANDS)] as number));
  return atMost(shape);
}

/** Brought to 0 at its loudest, and no deeper than tells anything. */
function atMost(shape: Shape): Shape {
  const loudest = shape.reduce((most, x) => Math.max(most, Number.isNaN(x) ? most : x), Number.NEGATIVE_INFINITY);
  // NaN stays: nobody knows
  return shape.map((x) => Math.max(-DEPTH_DB, x - loudest));
}

/** RMS distance with the force taken out, dB; Infinity: too little of the two is known. */
export function apart(p: Shape, q: Shape): number {
  let mean = 0;
  let square = 0;
  let n = 0;
  for (let i = 0; i < p.length; i++) {
    const d = (p[i] as number) - (q[i] as number);
    if (Number.isNaN(d)) continue;
    mean += d;
    square += d * d;
    n++;
  }
  if (n < LEAST_SHARE * p.length) return Number.POSITIVE_INFINITY;
  mean /= n;
  return Math.sqrt(Math.max(0, square / n - mean * mean));
}

/** @returns the sounds heard, the most frequent first */
export function soundsOf(shapes: readonly Shape[]): Sound[] {
  const step = Math.max(1, shapes.length / COMPARED);
  const some = Array.from(
    { length: Math.min(shapes.length, COMPARED) },
    (_, i) => shapes[Math.floor(i * step)] as Shape,
  );
  const groups = grouped(some).filter((group) => group.length >= LEAST_HITS);
  const sounds = groups.map((group) => ({ shape: middleOf(group), hits: group.length }));
  sounds.sort((p, q) => q.hits - p.hits);
  return sounds.filter((sound) => !isMadeUp(sound, sounds));
}

/** Average linkage: the two groups that lie nearest are one, until none lie near. */
function grouped(shapes: readonly Shape[]): Shape[][] {
  const n = shapes.length;
  const size = new Float64Array(n).fill(1);
  const far = Array.from({ length: n }, (_, i) =>
    Float64Array.from(shapes, (other) => apart(shapes[i] as Shape, other)),
  );
  const groups: (Shape[] | null)[] = shapes.map((shape) => [shape]);
  for (;;) {
    let best = ALIKE_DB;
    let p = -1;
    let q = -1;
    for (let i = 0; i < n; i++) {
      if (groups[i] === null) continue;
      const row = far[i] as Float64Array;
      for (let j = i + 1; j < n; j++) {
        if (groups[j] !== null && (row[j] as number) < best) {
          best = row[j] as number;
          p = i;
          q = j;
        }
      }
    }
    if (p < 0) return groups.filter((group) => group !== null);
    const rowP = far[p] as Float64Array;
    const rowQ = far[q] as Float64Array;
    const sp = size[p] as number;
    const sq = size[q] as number;
    for (let j = 0; j < n; j++) {
      const d = (sp * (rowP[j] as number) + sq * (rowQ[j] as number)) / (sp + sq);
      rowP[j] = d;
      (far[j] as Float64Array)[p] = d;
    }
    size[p] = sp + sq;
    groups[p] = [...(groups[p] as Shape[]), ...(groups[q] as Shape[])];
    groups[q] = null;
  }
}

function middleOf(group: readonly Shape[]): Shape {
  const first = group[0] as Shape;
  const middle = first.map((_, i) => {
    const values = group.flatMap((shape) => (Number.isNaN(shape[i]) ? [] : [shape[i] as number])).sort((p, q) => p - q);
    if (values.length === 0) return Number.NaN;
    const m = values.length >> 1;
    return values.length % 2 === 1 ? (values[m] as number) : ((values[m - 1] as number) + (values[m] as number)) / 2;
  });
  return atMost(middle);
}

/**
 * Others struck at once make up this one: two that are heard more often (a middle tom lies between a high and a low one as well), or two or
 * three that meet it as closely as strokes of one drum meet each other, however often they are heard alone.
 */
function isMadeUp(sound: Sound, all: readonly Sound[]): boolean {
  const others = all.filter((other) => other !== sound);
  return others.some((one, i) =>
    others.slice(i + 1).some((two) => {
      const near = Math.min(apart(sound.shape, one.shape), apart(sound.shape, two.shape));
      const sum = bestSum(sound.shape, one.shape, two.shape);
      const oftener = one.hits > sound.hits && two.hits > sound.hits;
      if (oftener && sum.apartDb < Math.min(MADE_UP_DB, 0.7 * near)) return true;
      const close = Math.min(CLEARLY_DB, CLEARLY_SHARE * near);
      if (sum.apartDb < close) return true;
      const begun = sum.apartDb < BEGUN_SHARE * near;
      return begun && others.some((more) => bestSum(sound.shape, sum.shape, more.shape).apartDb < close);
    }),
  );
}

/** A shape and two others added with whatever force: where they meet it best, and how far off, dB. */
function bestSum(shape: Shape, one: Shape, two: Shape): { shape: Shape; apartDb: number } {
  let best = { shape: one, apartDb: Number.POSITIVE_INFINITY };
  for (let db = -30; db <= 30; db += 1) {
    const sum = atMost(added(one, two, db));
    const apartDb = apart(shape, sum);
    if (apartDb < best.apartDb) best = { shape: sum, apartDb };
  }
  return best;
}

export function added(one: Shape, two: Shape, secondDb: number): Shape {
  const [p, q] = [powersOf(one), powersOf(two)];
  const gain = 10 ** (secondDb / 10);
  const sum = new Float64Array(one.length);
  for (let i = 0; i < sum.length; i++) sum[i] = 10 * Math.log10((p[i] as number) + gain * (q[i] as number));
  return sum;
}

/** A shape is added to others at many levels: its powers are worked out once. */
const powers = new WeakMap<Shape, Float64Array>();

function powersOf(shape: Shape): Float64Array {
  let of = powers.get(shape);
  if (!of) {
    of = shape.map((db) => 10 ** (db / 10));
    powers.set(shape, of);
  }
  return of;
}
