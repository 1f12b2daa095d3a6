/**
 * The delays of one drum's microphones against its reference, from readings of pairs: weighted least squares, as levelling
 * networks are adjusted. Which reading is most likely wrong: the one with the largest residual over its own standard
 * deviation (the w-test, W. Baarda, "A testing procedure for use in geodetic networks", Netherlands Geodetic
 * Commission, New Series 2(5), Delft 1968: data-snooping).
 */
import { checkEnds, type Ends, groupsOf } from './ends';

/** Delay = arrival at b minus arrival at a; both figures in one unit, the uncertainty 90 % and above zero. */
export interface DelayReading extends Ends {
  delayMs: number;
  uncertaintyMs: number;
}

/** Three readings round a triangle: d_ab + d_bc − d_ac should be nothing. */
export interface Closure {
  readings: [number, number, number];
  /** how each is walked: as it was read, or backwards */
  signs: [number, number, number];
  errorMs: number;
  /** 90 %, of the three together */
  uncertaintyMs: number;
}

export interface DelayAnswer {
  /** against the reference, for each microphone; null: no reading leads there */
  delayMs: (number | null)[];
  /** 90 %, of that delay */
  uncertaintyMs: (number | null)[];
  /** for each reading what it says minus what all say together */
  residualMs: number[];
  /** |residual| over its own 90 %; 0 where nothing checks the reading */
  test: number[];
  /** triangles that don't close within their uncertainty, the worst first */
  open: Closure[];
  /** readings by number that the others contradict (test above 1), the likeliest wrong one first */
  suspects: number[];
  /** 90 % of the delay between two microphones as all readings together give it; infinite where none join them */
  betweenMs: (a: number, b: number) => number;
}

/** What sums in another order differ by, against 1. */
const ROUNDING = 1e-9;

/**
 * @param reference the microphone whose delay is 0
 * @throws RangeError a reading or the reference names no microphone, or a figure isn't finite, or an uncertainty isn't above 0
 */
export function solveDelays(microphones: number, readings: readonly DelayReading[], reference: number): DelayAnswer {
  checkEnds(microphones, readings);
  if (!(Number.isInteger(reference) && reference >= 0 && reference < microphones))
    throw new RangeError(`reference ${reference} of ${microphones} microphones`);
  for (const { delayMs, uncertaintyMs } of readings)
    if (!Number.isFinite(delayMs) || !(uncertaintyMs > 0 && uncertaintyMs < Number.POSITIVE_INFINITY))
      throw new RangeError(`a delay of ${delayMs} ms ±${uncertaintyMs} ms`);
  const { group, count } = groupsOf(microphones, readings);
  const at = new Float64Array(microphones);
  const residualMs = new Array<number>(readings.length).fill(0);
  const test = new Array<number>(readings.length).fill(0);
  const uncertaintyMs = new Array<number | null>(microphones).fill(null);
  const spreads: ((a: number, b: number) => number)[] = [];
  for (let g = 0; g < count; g++) {
    const own = readings.map((_, i) => i).filter((i) => group[(readings[i] as DelayReading).a] === g);
    const fixed = group[reference] === g ? reference : group.indexOf(g);
    const free = Array.from({ length: microphones }, (_, i) => i).filter((i) => group[i] === g && i !== fixed);
    const spread = adjust(
      free,
      own.map((i) => readings[i] as DelayReading),
      at,
    );
    spreads.push(spread);
    for (const i of own) {
      const { a, b, delayMs, uncertaintyMs: u } = readings[i] as DelayReading;
      residualMs[i] = delayMs - ((at[b] as number) - (at[a] as number));
      const own2 = u * u - spread(a, b);
      test[i] = own2 > ROUNDING * u * u ? Math.abs(residualMs[i] as number) / Math.sqrt(own2) : 0;
    }
    if (group[reference] === g)
      for (const i of [fixed, ...free]) uncertaintyMs[i] = Math.sqrt(Math.max(0, spread(fixed, i)));
  }
  return {
    delayMs: Array.from(at, (delay, i) => (group[i] === group[reference] ? delay : null)),
    uncertaintyMs,
    residualMs,
    test,
    open: openTriangles(readings),
    suspects: suspectsOf(readings, test),
    betweenMs: (a, b) =>
      group[a] === group[b]
        ? Math.sqrt(Math.max(0, (spreads[group[a] as number] as (a: number, b: number) => number)(a, b)))
        : Number.POSITIVE_INFINITY,
  };
}

function suspectsOf(readings: readonly DelayReading[], test: readonly number[]): number[] {
  return test
    .map((_, i) => i)
    .filter((i) => (test[i] as number) > 1)
    .sort((p, q) => {
      const byTest = (test[q] as number) - (test[p] as number);
      // in a lone triangle all three are as bad: then the one that is least sure of itself
      if (Math.abs(byTest) > ROUNDING) return byTest;
      return (readings[q] as DelayReading).uncertaintyMs - (readings[p] as DelayReading).uncertaintyMs;
    });
}

/**
 * Solves one group by its normal equations, writes the free microphones' delays.
 * @returns the variance (of 90 % figures: their square) of the difference between two of the group's microphones
 */
function adjust(
  free: readonly number[],
  readings: readonly DelayReading[],
  at: Float64Array,
): (a: number, b: number) => number {
  const n = free.length;
  const place = new Map(free.map((microphone, i) => [microphone, i]));
  const normal = Array.from({ length: n }, () => new Float64Array(n));
  const right = new Float64Array(n);
  const add = (i: number | undefined, j: number | undefined, x: number): void => {
    if (i === undefined || j === undefined) return;
    const row = normal[i] as Float64Array;
    row[j] = (row[j] as number) + x;
  };
  for (const { a, b, delayMs, uncertaintyMs } of readings) {
    const w = 1 / (uncertaintyMs * uncertaintyMs);
    const [i, j] = [place.get(a), place.get(b)];
    add(i, i, w);
    add(j, j, w);
    add(i, j, -w);
    add(j, i, -w);
    if (i !== undefined) right[i] = (right[i] as number) - w * delayMs;
    if (j !== undefined) right[j] = (right[j] as number) + w * delayMs;
  }
  const inverse = inverted(normal);
  for (const [i, microphone] of free.entries())
    at[microphone] = right.reduce((sum, r, j) => sum + ((inverse[i] as Float64Array)[j] as number) * r, 0);
  const q = (i: number | undefined, j: number | undefined): number =>
    i === undefined || j === undefined ? 0 : ((inverse[i] as Float64Array)[j] as number);
  return (a, b) => {
    const [i, j] = [place.get(a), place.get(b)];
    return q(i, i) + q(j, j) - 2 * q(i, j);
  };
}

/** Inverse of a symmetric positive definite matrix (a connected group's is), Gauss–Jordan with no pivoting needed. */
function inverted(matrix: readonly Float64Array[]): Float64Array[] {
  const n = matrix.length;
  const left = matrix.map((row) => row.slice());
  const inverse = left.map((_, i) => Float64Array.from({ length: n }, (_, j) => (i === j ? 1 : 0)));
  for (let k = 0; k < n; k++) {
    const [rowL, rowI] = [left[k] as Float64Array, inverse[k] as Float64Array];
    const pivot = rowL[k] as number;
    for (let j = 0; j < n; j++) {
      rowL[j] = (rowL[j] as number) / pivot;
      rowI[j] = (rowI[j] as number) / pivot;
    }
    for (let i = 0; i < n; i++) {
      const [otherL, otherI] = [left[i] as Float64Array, inverse[i] as Float64Array];
      const factor = otherL[k] as number;
      if (i === k || factor === 0) continue;
      for (let j = 0; j < n; j++) {
        otherL[j] = (otherL[j] as number) - factor * (rowL[j] as number);
        otherI[j] = (otherI[j] as number) - factor * (rowI[j] as number);
      }
    }
  }
  return inverse;
}

function openTriangles(readings: readonly DelayReading[]): Closure[] {
  const between = new Map<string, number[]>();
  const key = (p: number, q: number): string => (p < q ? `${p} ${q}` : `${q} ${p}`);
  for (const [i, { a, b }] of readings.entries()) between.set(key(a, b), [...(between.get(key(a, b)) ?? []), i]);
  const open: Closure[] = [];
  for (const [i, first] of readings.entries())
    for (let j = i + 1; j < readings.length; j++) {
      const second = readings[j] as DelayReading;
      const shared = [first.a, first.b].find((end) => end === second.a || end === second.b);
      if (shared === undefined) continue;
      const [start, end] = [otherEnd(first, shared), otherEnd(second, shared)];
      // each triangle once: its readings in order; two readings of one pair make none
      for (const k of start === end ? [] : (between.get(key(start, end)) ?? [])) {
        if (k < j) continue;
        const third = readings[k] as DelayReading;
        const signs: Closure['signs'] = [way(first, start), way(second, shared), -way(third, start)];
        const errorMs = signs[0] * first.delayMs + signs[1] * second.delayMs + signs[2] * third.delayMs;
        const uncertaintyMs = Math.hypot(first.uncertaintyMs, second.uncertaintyMs, third.uncertaintyMs);
        if (Math.abs(errorMs) > uncertaintyMs) open.push({ readings: [i, j, k], signs, errorMs, uncertaintyMs });
      }
    }
  return open.sort((p, q) => Math.abs(q.errorMs) / q.uncertaintyMs - Math.abs(p.errorMs) / p.uncertaintyMs);
}

const otherEnd = ({ a, b }: DelayReading, end: number): number => (a === end ? b : a);
/** 1: the reading goes from that end to the other. */
const way = ({ a }: DelayReading, from: number): 1 | -1 => (a === from ? 1 : -1);
