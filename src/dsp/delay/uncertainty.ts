/**
 * How far from the truth an answer may be, 90 %: the scatter of the median, what noise does to it, and the bias of the
 * picks between unlike microphones. How closely hits repeat is another figure, and says nothing about the bias.
 */

import type { HitStore } from '../hit/hitStore';
import { MAD_TO_DEVIATION } from '../signal/median';
import type { LikelyTuning } from '../tuning/likelyTuning';
import { UNCERTAINTY, type UncertaintyTuning } from '../tuning/uncertaintyTuning';
import type { AttackFit } from './attackFit';
import type { Pool } from './pool';

/** 90 % of a normal distribution; its standard deviation from a median absolute deviation */
const NINETY = 1.645;

/** B's 40–250 Hz over 2–12 kHz less A's, mean of the drum's hits, dB. Real-time safe: yes. */
function tiltDifferenceDb(store: HitStore, pool: Pool): number {
  let tilt = 0;
  for (let i = 0; i < pool.drumHits; i++) {
    const s = pool.drumSlots[i] as number;
    tilt += ((store.tiltB[s] as number) - (store.tiltA[s] as number)) / pool.drumHits;
  }
  return tilt;
}

/**
 * Unlike microphones bend the first pushes, for all that can be seen: tops so unlike, and a fit so convincing that lies so
 * far off, that the dull microphone's first push must come late. Real-time safe: yes.
 * @param delay samples
 */
export function pushesBent(
  sampleRate: number,
  store: HitStore,
  pool: Pool,
  fit: AttackFit,
  delay: number,
  tuning: UncertaintyTuning = UNCERTAINTY,
): boolean {
  return (
    Math.abs(fit.delay - delay) > tuning.unlikeApartSeconds * sampleRate &&
    fit.agree >= tuning.convincingAgreement &&
    fit.runnerUp <= tuning.convincingRunnerUp &&
    isUnlike(store, pool, tuning)
  );
}

/**
 * Is one microphone without most of what the other hears (a filtered channel)? Then a first push that the best fit doesn't
 * confirm is the filter's. Real-time safe: yes.
 */
export const isUnlike = (store: HitStore, pool: Pool, tuning: UncertaintyTuning = UNCERTAINTY): boolean =>
  Math.abs(tiltDifferenceDb(store, pool)) >= tuning.unlikeTiltDb;

/**
 * 90 %, samples, of what is likeliest. Real-time safe: yes.
 * @param width how far the candidates in it lie apart, samples
 */
export function likelyUncertainty(
  sampleRate: number,
  { width }: { width: number },
  { placeSeconds }: Pick<LikelyTuning, 'placeSeconds'>,
): number {
  return Math.hypot(placeSeconds * sampleRate, NINETY * width);
}

export interface Answered {
  delay: number;
  sign: number;
  spread: number;
  members: number;
}

/** Where the best fit of the attacks lies, samples, and its sign. */
export type FitPlace = Pick<AttackFit, 'delay' | 'sign'>;

/** Distance of the best fit from the answer, samples; infinite where it goes the other way, or lies on another swing. Real-time safe: yes. */
export function apartOf(
  sampleRate: number,
  fit: FitPlace,
  answer: Pick<Answered, 'delay' | 'sign'>,
  tuning: UncertaintyTuning = UNCERTAINTY,
): number {
  const apart = Math.abs(fit.delay - answer.delay);
  const near = fit.sign === answer.sign && apart <= tuning.farApartSeconds * sampleRate;
  return near ? apart : Number.POSITIVE_INFINITY;
}

/**
 * 90 %, samples; NaN where the best fit goes the other way, or lies on another swing. Real-time safe: yes.
 * @param noiseMove how far noise may move the delay, samples
 */
export function uncertaintyOf(
  sampleRate: number,
  store: HitStore,
  pool: Pool,
  fit: FitPlace,
  answer: Answered,
  noiseMove: number,
  tuning: UncertaintyTuning = UNCERTAINTY,
): number {
  const apart = apartOf(sampleRate, fit, answer, tuning);
  if (apart === Number.POSITIVE_INFINITY) return Number.NaN;
  let rise = 0;
  for (let i = 0; i < pool.drumHits; i++)
    rise += Math.abs(store.riseDifference[pool.drumSlots[i] as number] as number) / pool.drumHits;
  // a microphone with less top delays push and fit alike: only the difference in tilt shows it
  const unlike = Math.max(0, Math.abs(tiltDifferenceDb(store, pool)) - tuning.usualTiltDb);
  const dull = tuning.tiltSecondsPerDb * sampleRate * unlike;
  const scatter = (NINETY * MAD_TO_DEVIATION * answer.spread) / Math.sqrt(Math.max(1, answer.members));
  const place = tuning.placeShare * answer.spread;
  const bias = tuning.apartFactor * apart;
  const rest = tuning.riseShare * rise;
  const least = NINETY * tuning.pickFloorSeconds * sampleRate;
  return Math.sqrt(scatter ** 2 + place ** 2 + bias ** 2 + rest ** 2 + dull ** 2 + least ** 2 + noiseMove ** 2);
}
