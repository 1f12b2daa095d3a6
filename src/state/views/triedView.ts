/** What is tried, ready to draw: the sum over frequency beside the measured one, and a band's level against how far B is moved. */
import type { AdviceContext } from '../../advice/advice';
import { CURVE_CM, type Fullest, fullestOf, moveCurve, type Spot, type Spots } from '../../advice/tryOut/moveCurve';
import { NOTHING_TRIED, type Tried } from '../../advice/tryOut/tried';
import { shiftSecondsOf, type TriedSums, triedDb, trimShare } from '../../advice/tryOut/tryOut';
import { combDb, POWER_SUM_DB, pathCm, predictedCoherency } from '../../reading/acoustics';
import { answerOf, type Reading } from '../../reading/reading';
import { aloneDb, type CombView, combView, SUM_LOW_DB } from './combView';
import { lossOf, nowLine, SUM_HZ, type SumView } from './sumView';

type Context = Pick<AdviceContext, 'invertB' | 'temperatureC'>;

/** The sum as it comes in, and as tried; levels re one microphone alone, a trim's power taken out, so that no trim is as now. */
export function triedSumView(reading: Reading, context: Context, tried: Tried, sums: TriedSums): SumView {
  const { spectrum, fullerLowHz, fullerHighHz } = reading.sum;
  const { re, im } = spectrum;
  const seconds = shiftSecondsOf(tried, context.temperatureC);
  const share = trimShare(tried.trimDb);
  // as it comes in: the meter's own invert is taken out
  const sign = context.invertB ? -1 : 1;
  const turned = tried.invertB !== context.invertB;
  const shown = nowLine(spectrum);
  const nowDb = shown.map((level, i) => (level === null ? null : aloneDb(sign * (re[i] as number))));
  const after = SUM_HZ.map((hz, i) => predictedCoherency(re[i] as number, im[i] as number, hz, seconds, turned));
  const isTried = tried.invertB || seconds !== 0 || tried.trimDb !== 0;
  const otherDb = isTried
    ? nowDb.map((level, i) => (level === null ? null : aloneDb(share * (after[i] as number))))
    : null;
  return {
    nowDb,
    tooFew: false,
    otherDb,
    other: 'tried',
    otherWhat: 'what is tried',
    ownBandHz: fullerLowHz !== null && fullerHighHz !== null ? [fullerLowHz, fullerHighHz] : null,
    gainDb: isTried && !sums.low.triedDeep ? sums.low.gainDb : null,
    elsewhere: null,
    lossHz: otherDb && lossOf(nowDb, otherDb),
    comb: triedComb(reading, seconds, turned, tried.trimDb),
  };
}

/** The comb as tried, shown where what is measured fits its own; its depth as the trim leaves it. */
function triedComb(reading: Reading, seconds: number, turned: boolean, trimDb: number): CombView | null {
  const said = answerOf(reading);
  if (said.state !== 'measured') return null;
  const { spectrum } = reading.sum;
  const nowSeconds = said.delaySamples / reading.sampleRate;
  const { fits } = combView(spectrum, nowSeconds, said.polarity, false);
  const polarity = turned === (said.polarity === 'same') ? 'inverted' : 'same';
  const comb = combView(spectrum, nowSeconds - seconds, polarity, false);
  const level = (hz: number): number => combDb(hz, nowSeconds - seconds, polarity, trimDb).rePowerSumDb + POWER_SUM_DB;
  const db = comb.db.map((one, i) => (one === null ? null : Math.max(SUM_LOW_DB, level(SUM_HZ[i] as number))));
  return { ...comb, db, fits };
}

/** A place on the curve. */
export interface MoveMark {
  what: 'now' | 'aligned' | 'fullest' | 'tried';
  spot: Spot;
  /** dB re one microphone alone; null where it can't be told: the mark stands at the foot */
  db: number | null;
}

export interface MoveView {
  /** cm */
  cm: readonly number[];
  /** dB re one microphone alone with the polarity that is tried, and with the other */
  sameDb: (number | null)[];
  otherDb: (number | null)[];
  invertB: boolean;
  triedCm: number;
  marks: MoveMark[];
}

/** How far B is moved by what is tried, or would have to be for the same delay, cm. */
export const asMoveCm = (tried: Tried, temperatureC: number): number =>
  tried.delayMs === null ? (tried.moveCm ?? 0) : pathCm(tried.delayMs / 1000, temperatureC);

/** @param n near band: 0 the drum's low octave, 1 overall, then BANDS; @param spots of the reading */
export function moveView(reading: Reading, context: Context, tried: Tried, n: number, spots: Spots): MoveView {
  const { asIsDb, invertedDb } = moveCurve(reading, context, n, tried.trimDb);
  const alone = (db: number | null): number | null => (db === null ? null : Math.max(SUM_LOW_DB, db + POWER_SUM_DB));
  const at = (what: MoveMark['what'], spot: Spot): MoveMark => ({
    what,
    spot,
    db: alone(triedDb(reading, context, n, { ...NOTHING_TRIED, ...spot, trimDb: tried.trimDb })),
  });
  const fullest: Fullest = n === 0 ? spots.low : n === 1 ? spots.all : fullestOf(reading, context, n);
  const triedCm = asMoveCm(tried, context.temperatureC);
  const marks = [
    at('now', { invertB: false, moveCm: 0 }),
    ...(spots.aligned ? [at('aligned', spots.aligned)] : []),
    ...[fullest.asIs, fullest.inverted].flatMap((spot) => (spot ? [at('fullest', spot)] : [])),
    at('tried', { invertB: tried.invertB, moveCm: triedCm }),
  ];
  return {
    cm: CURVE_CM,
    sameDb: (tried.invertB ? invertedDb : asIsDb).map(alone),
    otherDb: (tried.invertB ? asIsDb : invertedDb).map(alone),
    invertB: tried.invertB,
    triedCm,
    marks,
  };
}
