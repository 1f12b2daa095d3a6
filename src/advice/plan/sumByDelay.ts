/**
 * What A+B comes to at any delay near the arrival: plain data, so that a sheet can keep it and tell a delay's gain that nobody
 * thought of when the pair was measured. As the inputs carry it: the meter's own invert is taken out.
 */
import { sumDbFromCoherency } from '../../reading/acoustics';
import { BANDS, NEAR_HALF_POINTS, NEAR_POINTS } from '../../reading/bands';
import { lagrange } from '../../reading/interpolate';
import type { SumReading } from '../../reading/reading';
import type { SumLevels, Timing } from './alternatives';

export interface SumByDelay {
  /** the first delay, ms, and from each to the next; positive: A is delayed, negative: B */
  fromMs: number;
  stepMs: number;
  /** Re γ in the drum's low octave and overall (30 Hz–10 kHz), levels equal, NEAR_POINTS each; null where the hits don't carry it */
  low: number[] | null;
  all: number[] | null;
}

/** A sum is told to half a dB: this is 0.1 dB where it lies 17 dB below two that are unrelated. */
const STEPS = 1000;

/** @returns null: no arrival holds, or the hits carry neither */
export function sumByDelayOf({ near }: SumReading, sampleRate: number, invertB: boolean): SumByDelay | null {
  if (near === null) return null;
  const { centreSamples, stepSamples, bands } = near;
  const [low, all] = [0, 1].map((n) => rounded(bands[n] as Float64Array, invertB ? -1 : 1)) as [
    number[] | null,
    number[] | null,
  ];
  if (low === null && all === null) return null;
  const ms = 1000 / sampleRate;
  return { fromMs: (centreSamples - NEAR_HALF_POINTS * stepSamples) * ms, stepMs: stepSamples * ms, low, all };
}

// + 0: never −0
const rounded = (curve: Float64Array, sign: number): number[] | null =>
  curve.every(Number.isFinite)
    ? Array.from(curve, (re) => Math.max(-1, Math.min(1, Math.round(sign * re * STEPS) / STEPS)) + 0)
    : null;

/** The same once one of the two switches stands the other way. */
export function turnedSum({ low, all, ...rest }: SumByDelay): SumByDelay {
  const turn = (curve: number[] | null): number[] | null => curve?.map((re) => 0 - re) ?? null;
  return { ...rest, low: turn(low), all: turn(all) };
}

/** The same with A and B changed. */
export function swappedSum({ fromMs, stepMs, low, all }: SumByDelay): SumByDelay {
  const lastMs = fromMs + (NEAR_POINTS - 1) * stepMs;
  return { fromMs: 0 - lastMs, stepMs, low: low?.toReversed() ?? null, all: all?.toReversed() ?? null };
}

const NONE: SumLevels['bandsDb'] = BANDS.map(() => null);

/** @returns null: the delay lies beyond what is known */
export function timingAt({ fromMs, stepMs, low, all }: SumByDelay, delayMs: number): Timing | null {
  const at = (delayMs - fromMs) / stepMs;
  if (!(at >= 0 && at <= NEAR_POINTS - 1)) return null;
  const [lowRe, allRe] = [low && lagrange(low, 0, NEAR_POINTS, at), all && lagrange(all, 0, NEAR_POINTS, at)];
  const level = (re: number | null, sign: number): number | null =>
    re === null ? null : sumDbFromCoherency(sign * re);
  const levels = (sign: number): SumLevels => ({ lowDb: level(lowRe, sign), allDb: level(allRe, sign), bandsDb: NONE });
  return { delayMs, moveCm: null, asIs: levels(1), inverted: levels(-1) };
}
