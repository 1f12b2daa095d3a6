/** Each band's level against how far B is moved, and the places worth trying along it. */
import { answerOf, type Reading } from '../../reading/reading';
import { AS_GOOD_DB } from '../plan/alternatives';
import { gapOf, pathSaidCm } from '../plan/gap';
import { MOST_MOVE_CM, NOTHING_TRIED } from './tried';
import { type TryContext, triedDb } from './tryOut';

/** cm between two points of a curve */
const CURVE_STEP_CM = 0.25;
/** cm between two places that are looked at for the fullest */
const SPOT_STEP_CM = 0.1;

/** Moves at which a curve has its points, cm, positive: B towards the drum. */
export const CURVE_CM: readonly number[] = Array.from(
  { length: (2 * MOST_MOVE_CM) / CURVE_STEP_CM + 1 },
  (_, i) => i * CURVE_STEP_CM - MOST_MOVE_CM,
);

export interface MoveCurve {
  /** dB re the power sum at CURVE_CM with B as it comes in, and inverted; null where it can't be told */
  asIsDb: (number | null)[];
  invertedDb: (number | null)[];
}

/** @param n near band: 0 the drum's low octave, 1 the whole band, then BANDS */
export function moveCurve(reading: Reading, context: TryContext, n: number, trimDb: number): MoveCurve {
  const levels = (invertB: boolean): (number | null)[] =>
    CURVE_CM.map((moveCm) => triedDb(reading, context, n, { ...NOTHING_TRIED, invertB, moveCm, trimDb }));
  return { asIsDb: levels(false), invertedDb: levels(true) };
}

export interface Spot {
  invertB: boolean;
  moveCm: number;
}

/** The fullest of one band, of those that are as good the shortest move: with either polarity; null where it can't be told. */
export interface Fullest {
  asIs: Spot | null;
  inverted: Spot | null;
  /** the fuller of the two */
  best: Spot | null;
}

export interface Spots {
  /** where the first pushes meet, as the path is said, with the polarity that has them push the same way; null: no arrival holds, or it lies too far away */
  aligned: Spot | null;
  /** why not */
  noAligned: 'no-arrival' | 'too-far' | null;
  low: Fullest;
  all: Fullest;
}

export function spotsOf(reading: Reading, context: TryContext): Spots {
  const said = answerOf(reading);
  const gap = said.state === 'measured' ? gapOf(said, reading.sampleRate, context.temperatureC) : null;
  const near = gap !== null && Math.abs(gap.pathCm) <= MOST_MOVE_CM;
  return {
    aligned: near ? { invertB: (said.polarity === 'inverted') !== context.invertB, moveCm: pathSaidCm(gap) } : null,
    noAligned: near ? null : gap === null ? 'no-arrival' : 'too-far',
    low: fullestOf(reading, context, 0),
    all: fullestOf(reading, context, 1),
  };
}

/** Of one near band, at equal level: a trim changes how full it is, and not where. */
export function fullestOf(reading: Reading, context: TryContext, n: number): Fullest {
  const [asIs, inverted] = [false, true].map((invertB) => fullestWith(reading, context, n, invertB));
  const [x, y] = [asIs ?? null, inverted ?? null];
  const best = x === null || y === null ? (x ?? y) : y.db > x.db + AS_GOOD_DB ? y : x;
  const spot = (one: typeof x): Spot | null => one && { invertB: one.invertB, moveCm: one.moveCm };
  return { asIs: spot(x), inverted: spot(y), best: spot(best) };
}

function fullestWith(
  reading: Reading,
  context: TryContext,
  n: number,
  invertB: boolean,
): (Spot & { db: number }) | null {
  const steps = Math.round(MOST_MOVE_CM / SPOT_STEP_CM);
  const places: (Spot & { db: number })[] = [];
  for (let i = -steps; i <= steps; i++) {
    const moveCm = i / (1 / SPOT_STEP_CM);
    const db = triedDb(reading, context, n, { ...NOTHING_TRIED, invertB, moveCm });
    if (db !== null) places.push({ invertB, moveCm, db });
  }
  const most = places.reduce((db, one) => Math.max(db, one.db), Number.NEGATIVE_INFINITY);
  return (
    places.filter(({ db }) => db >= most - AS_GOOD_DB).sort((x, y) => Math.abs(x.moveCm) - Math.abs(y.moveCm))[0] ??
    null
  );
}
