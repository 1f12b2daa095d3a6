/** The arrival curve, ready to draw: lags in ms, and a range that shows a few centimetres as well as a few metres. */
import { NEAR_LAG_MS } from '../../advice/plan/pairKinds';
import { waveformsOf } from '../../advice/plan/whyFacts';
import { answerOf, type Reading } from '../../reading/reading';

export interface ArrivalView {
  lagsMs: number[];
  /** −1…+1; its sign says polarity */
  values: number[];
  /** the found arrival, ms; null without one */
  foundMs: number | null;
  /** where the whole stroke fits best, where that isn't the first push; null: it is, or nothing is known */
  best: { lagMs: number; value: number } | null;
  /** half-width of the drawn range, ms */
  rangeMs: number;
  /** half-height of the drawn range: a whitened curve seldom comes near 1 */
  height: number;
  /** hits behind the curve; 0: nothing to draw */
  hits: number;
}

const RANGES_MS = [1, 3, NEAR_LAG_MS];
const HEIGHTS = [0.25, 0.5, 1];

/** Smallest of the ranges that leaves the found arrival well inside; the whole curve without one. */
export function rangeFor(foundMs: number | null, wholeMs: number, beforeMs: number): number {
  const presentMs = Math.min(beforeMs, wholeMs);
  if (foundMs === null) return presentMs > 0 ? presentMs : wholeMs;
  const size = Math.abs(foundMs);
  // stay where we are while it fits comfortably: the axis must not jump about under a microphone on the move
  if (presentMs > 0 && size <= 0.8 * presentMs && size >= 0.15 * presentMs) return presentMs;
  return RANGES_MS.find((range) => size <= 0.6 * range && range < wholeMs) ?? wholeMs;
}

export function arrivalView(reading: Reading, presentRangeMs: number): ArrivalView {
  const { values, stepSamples, hits } = reading.curve;
  const { delaySamples } = answerOf(reading);
  const stepMs = (stepSamples / reading.sampleRate) * 1000;
  const middle = (values.length - 1) / 2;
  const foundMs = delaySamples === null ? null : (delaySamples / reading.sampleRate) * 1000;
  const rangeMs = rangeFor(foundMs, middle * stepMs, presentRangeMs);
  const lagsMs: number[] = [];
  const kept: number[] = [];
  const from = Math.max(0, Math.floor(middle - rangeMs / stepMs) - 1);
  const to = Math.min(values.length - 1, Math.ceil(middle + rangeMs / stepMs) + 1);
  for (let i = from; i <= to; i++) {
    lagsMs.push((i - middle) * stepMs);
    kept.push(values[i] as number);
  }
  const largest = kept.reduce((top, value) => Math.max(top, Math.abs(value)), 0);
  const height = HEIGHTS.find((h) => largest <= h) ?? 1;
  return { lagsMs, values: kept, foundMs, best: bestOf(reading), rangeMs, height, hits };
}

function bestOf(reading: Reading): ArrivalView['best'] {
  const said = answerOf(reading);
  const witness = said.state === 'measured' ? waveformsOf(reading, said) : null;
  if (said.state !== 'measured' || witness === null || witness.confirm) return null;
  const { values, stepSamples } = reading.curve;
  const lagMs = (said.delaySamples / reading.sampleRate) * 1000 + witness.apartMs;
  const at = Math.round((lagMs * reading.sampleRate) / 1000 / stepSamples) + (values.length - 1) / 2;
  return { lagMs, value: values[at] ?? 0 };
}

/** Changes when the curve's picture would. */
export function arrivalKey(reading: Reading): string {
  const { values, hits } = reading.curve;
  let sum = 0;
  for (let i = 0; i < values.length; i += 7) sum += (values[i] as number) * (i + 1);
  return `${sum.toPrecision(9)}|${hits}|${answerOf(reading).delaySamples}`;
}
