/** What the mode that measures the input offset has found, from the newest reading: codes and numbers. */

import { pathCm } from '../../reading/acoustics';
import { MAX_OFFSET_SECONDS } from '../../reading/limits';
import type { OffsetGaugeReading, Reading } from '../../reading/reading';

/** while measuring, delays are looked for beyond what may be taken out: a wrong patch shows as what it is */
export const OFFSET_REACH_MS = 34;

const HITS_NEEDED = 4;
const LEAST_AGREEMENT = 0.75;
/** median deviation, s: 2 mm of path; a split source repeats within 0.4 µs, drums between two microphones rarely within 5 */
const SCATTER_SECONDS = 0.000005;
/** a split source reaches 0.99 and more, unlike microphones at one spot 0.98; clicks at the two ears of a head 0.9 */
const LEAST_HEIGHT = 0.975;
/** farther apart than this, a person had better look twice, s (common practice, no source) */
const UNUSUAL_SECONDS = 0.001;
/** nothing to take out below, samples */
const NOTHING_SAMPLES = 0.05;

/** Hits are still to come. */
export type OffsetListening = { fate: 'listening' } & (
  | { code: 'beginning' | 'nothing-heard' }
  | { code: 'too-few-hits'; hits: number; needed: number }
);

/** What was heard is no offset of converters, or not sure enough. */
export type OffsetRefused = { fate: 'refused' } & (
  | { code: 'bit-identical' | 'unlike-waveforms' | 'inverted' }
  | { code: 'one-silent'; silent: 'a' | 'b' }
  | { code: 'hits-disagree'; agreeing: number; hits: number }
  | { code: 'scatter'; scatterSamples: number }
  /** without its sign */
  | { code: 'too-far'; delayMs: number }
  | { code: 'nothing'; withinSamples: number }
);

export interface OffsetSure {
  fate: 'sure';
  code: 'sure';
  /** to be taken out: delay of B's path against A's, samples, to 0.01 */
  offsetSamples: number;
  /** as heard: samples, ms, and the path in air that would make it, cm; positive: B is later */
  delaySamples: number;
  delayMs: number;
  pathCm: number;
  agreeing: number;
  hits: number;
  /** more than converters usually differ by */
  unusual: boolean;
}

export type OffsetFinding = OffsetListening | OffsetRefused | OffsetSure;

const refused = (code: 'bit-identical' | 'unlike-waveforms' | 'inverted'): OffsetRefused => ({ fate: 'refused', code });

/** @param reading null: none has come yet */
export function findOffset(reading: Reading | null, temperatureC: number): OffsetFinding {
  const gauge = reading?.gauge ?? null;
  if (reading === null || gauge === null) return { fate: 'listening', code: 'beginning' };
  const { a, b, bitIdentical } = reading.inputs;
  if (bitIdentical) return refused('bit-identical');
  if (gauge.hits === 0) {
    if (a.silent !== b.silent) return { fate: 'refused', code: 'one-silent', silent: a.silent ? 'a' : 'b' };
    return { fate: 'listening', code: 'nothing-heard' };
  }
  if (gauge.hits < HITS_NEEDED) {
    return { fate: 'listening', code: 'too-few-hits', hits: gauge.hits, needed: HITS_NEEDED };
  }
  return judge(gauge, reading.sampleRate, temperatureC);
}

/** Enough hits: is what they say sure, and can converters have made it? */
function judge(gauge: OffsetGaugeReading, sampleRate: number, temperatureC: number): OffsetRefused | OffsetSure {
  const { hits, agreeing, offsetSamples, scatterSamples, height, polarity } = gauge;
  const agree = agreeing >= HITS_NEEDED && agreeing >= LEAST_AGREEMENT * hits;
  if (!agree || offsetSamples === null || scatterSamples === null || height === null) {
    return { fate: 'refused', code: 'hits-disagree', agreeing, hits };
  }
  if (height < LEAST_HEIGHT) return refused('unlike-waveforms');
  if (scatterSamples > SCATTER_SECONDS * sampleRate) return { fate: 'refused', code: 'scatter', scatterSamples };
  if (polarity === 'inverted') return refused('inverted');
  const seconds = offsetSamples / sampleRate;
  const delayMs = seconds * 1000;
  if (Math.abs(seconds) > MAX_OFFSET_SECONDS) return { fate: 'refused', code: 'too-far', delayMs: Math.abs(delayMs) };
  if (Math.abs(offsetSamples) < NOTHING_SAMPLES) {
    return { fate: 'refused', code: 'nothing', withinSamples: NOTHING_SAMPLES };
  }
  return {
    fate: 'sure',
    code: 'sure',
    offsetSamples: Math.round(offsetSamples * 100) / 100,
    delaySamples: offsetSamples,
    delayMs,
    pathCm: pathCm(seconds, temperatureC),
    agreeing,
    hits,
    unusual: Math.abs(seconds) > UNUSUAL_SECONDS,
  };
}
