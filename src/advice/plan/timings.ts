/**
 * The ways in which a pair may lie in time, and what A+B comes to in each: as it is, moved, delayed later in the mix by the
 * arrival's own delay, and by the one near it that is best for the sum. Told as the inputs carry it: the meter's own invert is
 * taken out. What a real move changes in what the microphone hears can't be known: a move is told as if it were a delay.
 */
import { delaySeconds, sumDbFromCoherency } from '../../reading/acoustics';
import { NEAR_BANDS, NEAR_HALF_POINTS, NEAR_POINTS } from '../../reading/bands';
import { lagrange } from '../../reading/interpolate';
import { answerOf, type Reading, type SumReading } from '../../reading/reading';
import { nearest, roundDelayMs } from '../../reading/rounding';
import { AS_GOOD_DB, type SumLevels, type Timing } from './alternatives';
import { type Gap, gapOf, isFar, moveOf } from './gap';
import { type PairKind, pairKind } from './pairKinds';
import type { PlanContext } from './planTypes';

/** a delay is worth telling from here on, ms */
const LEAST_DELAY_MS = 0.05;
/** two delays that lie closer than this are one, ms */
const SAME_DELAY_MS = 0.05;
/** the best delay for the sum is looked for so near the arrival, ms */
const NEAR_MS = 1;
/** a move that was advised stands while the path is within this of it, cm, or within so many times what the hits repeat to */
const MOVE_STANDS_CM = 0.75;
const MOVE_STANDS_REPEATS = 3;

/** Re γ of near band n: 0 the drum's low octave, 1 the whole band, then BANDS. */
type Gamma = (n: number) => number | null;

/**
 * @returns the present first; empty where nothing is to be told: neither sum nor arrival carries anything, a microphone is on
 * the move, an input is at fault, or the two are farther apart than such a pair ever is
 */
export function timingsOf(reading: Reading, context: PlanContext): Timing[] {
  const { sum } = reading;
  const said = answerOf(reading);
  if (said.state !== 'measured' && said.state !== 'unclear') return [];
  const kind = pairKind(context.kind);
  const gap = said.state === 'measured' ? gapOf(said, reading.sampleRate, context.temperatureC) : null;
  if (gap === null ? sum.now.every((re) => re === null) : isFar(kind, gap)) return [];
  const sign = context.invertB ? -1 : 1;
  const timing = (gamma: Gamma, delayMs: number | null, moveCm: number | null): Timing => ({
    delayMs,
    moveCm,
    asIs: levels(gamma, sign),
    inverted: levels(gamma, -sign),
  });
  const present = timing((n) => sum.now[n] ?? null, null, null);
  if (gap === null) return [present];
  const after = (ms: number): Gamma => gammaAfter(sum, (ms / 1000) * reading.sampleRate);
  const moves = movesOf(kind, gap, context).map((cm) =>
    timing(after(delaySeconds(cm, context.temperatureC) * 1000), null, cm),
  );
  const delays = delaysOf(sum, gap, kind, reading.sampleRate, sign, context);
  return [present, ...moves, ...delays.map((ms) => timing(after(ms), ms, null))];
}

const level = (re: number | null, sign: number): number | null => (re === null ? null : sumDbFromCoherency(sign * re));

function levels(gamma: Gamma, sign: number): SumLevels {
  const bands = Array.from({ length: NEAR_BANDS - 2 }, (_, b) => level(gamma(b + 2), sign));
  return { lowDb: level(gamma(0), sign), allDb: level(gamma(1), sign), bandsDb: bands };
}

/** Once B's delay has fallen by so many samples; null beyond what the reading tells. */
function gammaAfter({ near }: SumReading, shiftSamples: number): Gamma {
  if (near === null) return () => null;
  const at = (shiftSamples - near.centreSamples) / near.stepSamples + NEAR_HALF_POINTS;
  if (!(at >= 0 && at <= NEAR_POINTS - 1)) return () => null;
  return (n) => {
    const re = lagrange(near.bands[n] as Float64Array, 0, NEAR_POINTS, at);
    return Number.isFinite(re) ? re : null;
  };
}

/** The move that makes the distances equal; the one that was advised before, while it still does. */
function movesOf(kind: PairKind, gap: Gap, { standing, chosen }: PlanContext): number[] {
  const move = moveOf(kind, gap);
  const before = chosen?.moveCm ?? standing?.moveCm ?? null;
  if (before === null || !kind.movable) return move === null ? [] : [move];
  const near = Math.max(MOVE_STANDS_CM, MOVE_STANDS_REPEATS * gap.repeatsCm);
  if (Math.abs(before - gap.pathCm) <= near) return [before];
  return move === null ? [] : [move];
}

/** Delays, ms: the one that was advised before, the arrival's own, the best for the sum; none twice. */
function delaysOf(
  sum: SumReading,
  gap: Gap,
  kind: PairKind,
  sampleRate: number,
  sign: number,
  { standing, chosen }: PlanContext,
): number[] {
  // a setting, not a figure of what is known: the sum is told at just this delay
  const own = Math.abs(gap.pathCm) < kind.toleranceCm ? null : roundDelayMs(gap.delayMs, 0);
  const found: number[] = [];
  for (const ms of [chosen?.delayMs ?? null, standing?.delayMs ?? null, own, bestDelayMs(sum, gap, sampleRate, sign)]) {
    if (ms === null || Math.abs(ms) < LEAST_DELAY_MS) continue;
    if (found.every((other) => Math.abs(other - ms) >= SAME_DELAY_MS)) found.push(ms);
  }
  return found;
}

/**
 * The delay within NEAR_MS of the arrival whose sum is best, with either polarity, in both the drum's low octave and over all
 * (the smaller of the two gains), and of those that are as good the one nearest to the arrival; to 0.01 ms. Null: the hits
 * don't carry it.
 */
function bestDelayMs({ near, now }: SumReading, gap: Gap, sampleRate: number, present: number): number | null {
  const [lowNow, allNow] = now;
  if (near === null || lowNow == null || allNow == null) return null;
  const low = near.bands[0] as Float64Array;
  const all = near.bands[1] as Float64Array;
  const lowDb = sumDbFromCoherency(present * lowNow);
  const allDb = sumDbFromCoherency(present * allNow);
  const gain = (i: number, sign: number): number =>
    Math.min(
      sumDbFromCoherency(sign * (low[i] as number)) - lowDb,
      sumDbFromCoherency(sign * (all[i] as number)) - allDb,
    );
  const places = Array.from({ length: NEAR_POINTS }, (_, i) => {
    const ms = ((near.centreSamples + (i - NEAR_HALF_POINTS) * near.stepSamples) / sampleRate) * 1000;
    return { offMs: Math.abs(ms - gap.delayMs), ms, gain: Math.max(gain(i, 1), gain(i, -1)) };
  }).filter(({ offMs }) => offMs <= NEAR_MS);
  const best = Math.max(...places.map((one) => one.gain));
  const [chosen] = places.filter((one) => one.gain >= best - AS_GOOD_DB / 2).sort((x, y) => x.offMs - y.offMs);
  return chosen === undefined ? null : nearest(chosen.ms * 100) / 100;
}
