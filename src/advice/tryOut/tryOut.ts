/**
 * What A+B would come to if B were inverted, moved or trimmed by hand, from the reading alone: the arithmetic of a delay. What a
 * real move changes in what the microphone hears can't be known.
 *
 * Everything counts from B as it comes in: the meter's own invert is taken out, as in a plan. Levels are dB of A+B re the power sum
 * of the two (what they would make if unrelated), A and B at equal level in the band and B then trimmed: 10·log10(1 + 2g/(1+g²)·Re γ),
 * g = 10^(trim/20), the power of a sum of two (F. A. Everest, K. C. Pohlmann, "Master Handbook of Acoustics", ch. 10, two levels).
 */
import { delaySeconds, sumDbFromCoherency } from '../../reading/acoustics';
import { NEAR_BANDS, NEAR_HALF_POINTS, NEAR_POINTS } from '../../reading/bands';
import { lagrange } from '../../reading/interpolate';
import type { Reading, SumReading } from '../../reading/reading';
import type { Action } from '../plan/alternatives';
import { NOTHING_TRIED, type Tried } from './tried';

/** below this, re the power sum, only "so far down, or more" is said: a small miss in Re γ is several dB there */
export const DEEP_DB = -10;

/** How things stand at the meter. */
export interface TryContext {
  /** the meter's own invert of B */
  invertB: boolean;
  temperatureC: number;
}

export interface TriedLevel {
  /** dB re the power sum; null where it can't be told */
  nowDb: number | null;
  triedDb: number | null;
  /** the one over the other, dB */
  gainDb: number | null;
  /** why the tried level can't be told; null: it can */
  why: 'not-carried' | 'out-of-reach' | null;
  /** something is tried, and comes to DEEP_DB and more down: what is told is a bound. The present is measured, however deep */
  triedDeep: boolean;
}

export interface TriedSums {
  /** the drum's low octave */
  low: TriedLevel;
  /** 30 Hz–10 kHz */
  all: TriedLevel;
  /** in the order of BANDS */
  bands: TriedLevel[];
}

/** How far B's delay falls, s. */
export const shiftSecondsOf = ({ delayMs, moveCm }: Action, temperatureC: number): number =>
  delayMs === null ? delaySeconds(moveCm ?? 0, temperatureC) : delayMs / 1000;

/** What of Re γ a trim leaves: 2g/(1+g²). */
export function trimShare(trimDb: number): number {
  const g = 10 ** (trimDb / 20);
  return (2 * g) / (1 + g * g);
}

/**
 * Re γ of a near band once B's delay has fallen by so many samples, as the meter shows B; null beyond what the reading tells, or
 * where the hits don't carry the band.
 */
export function reAfter({ near, here, now }: SumReading, n: number, shiftSamples: number): number | null {
  if (shiftSamples === 0) return now[n] ?? null;
  if (near !== null) {
    const at = (shiftSamples - near.centreSamples) / near.stepSamples + NEAR_HALF_POINTS;
    if (at >= 0 && at <= NEAR_POINTS - 1) return finite(lagrange(near.bands[n] as Float64Array, 0, NEAR_POINTS, at));
  }
  const band = here?.[n];
  if (band === undefined) return null;
  const at = shiftSamples / band.stepSamples + (band.re.length - 1) / 2;
  return at >= 0 && at <= band.re.length - 1 ? finite(lagrange(band.re, 0, band.re.length, at)) : null;
}

const finite = (x: number): number | null => (Number.isFinite(x) ? x : null);

/** Level of near band n for one thing tried, dB re the power sum; null as `reAfter`. */
export function triedDb(reading: Reading, context: TryContext, n: number, tried: Tried): number | null {
  const re = reAfter(reading.sum, n, shiftSecondsOf(tried, context.temperatureC) * reading.sampleRate);
  const sign = tried.invertB === context.invertB ? 1 : -1;
  return re === null ? null : sumDbFromCoherency(sign * trimShare(tried.trimDb) * re);
}

/** Every band's level, now and as tried. */
export function tryOut(reading: Reading, context: TryContext, tried: Tried): TriedSums {
  const [low, all, ...bands] = Array.from({ length: NEAR_BANDS }, (_, n): TriedLevel => {
    const nowDb = triedDb(reading, context, n, NOTHING_TRIED);
    const then = triedDb(reading, context, n, tried);
    return {
      nowDb,
      triedDb: then,
      gainDb: nowDb === null || then === null ? null : then - nowDb,
      why: then !== null ? null : nowDb === null ? 'not-carried' : 'out-of-reach',
      triedDeep: then !== null && then < DEEP_DB && then !== nowDb,
    };
  });
  return { low: low as TriedLevel, all: all as TriedLevel, bands };
}
