/**
 * How far from the truth an answer may be, 90 %: the scatter of the median, what noise does to it, and the bias of the
 * picks between unlike microphones. How closely hits repeat is another figure, and says nothing about the bias.
 * The factors were found on drawn scenes with known geometry (tuning seeds); the bench quotes others.
 */

import type { HitStore } from '../hit/hitStore';
import type { AttackFit } from './attackFit';
import type { Pool } from './pool';

/** 90 % of a normal distribution; its standard deviation from a median absolute deviation */
const NINETY = 1.645;
const MAD_TO_DEVIATION = 1.4826;
/** what a pick cannot know better, s; share of the difference of rises that a 10 % foot may hide */
const PICK_FLOOR_SECONDS = 0.000014;
const RISE_SHARE = 0.15;
/** of the spread of the hits: they are struck at different places, and a handful doesn't show the middle */
const PLACE_SHARE = 1;
/** the truth lies between first push and best fit, or a little outside; beyond so much they are of different swings */
const APART_FACTOR = 1.2;
const FAR_APART_SECONDS = 0.0005;
/** what unlike tops add: seen by low-passing one channel of real recordings at 1.5 kHz; up to the usual it is in the rest */
const TILT_SECONDS_PER_DB = 0.000012;
const USUAL_TILT_DB = 6;
/** tops so unlike, and a fit so convincing that lies so far off: the dull microphone's first push comes late */
const UNLIKE_TILT_DB = 8;
const UNLIKE_APART_SECONDS = 0.00007;
const CONVINCING_AGREEMENT = 0.85;
const CONVINCING_RUNNER_UP = 0.2;

/** B's 40–250 Hz over 2–12 kHz less A's, mean of the drum's hits, dB. Real-time safe: yes. */
function tiltDifferenceDb(store: HitStore, pool: Pool): number {
  let tilt = 0;
  for (let i = 0; i < pool.drumHits; i++) {
    const s = pool.drumSlots[i] as number;
    tilt += ((store.tiltB[s] as number) - (store.tiltA[s] as number)) / pool.drumHits;
  }
  return tilt;
}

/** Unlike microphones bend the first pushes, for all that can be seen. Real-time safe: yes. @param delay samples */
export function pushesBent(sampleRate: number, store: HitStore, pool: Pool, fit: AttackFit, delay: number): boolean {
  return (
    Math.abs(fit.delay - delay) > UNLIKE_APART_SECONDS * sampleRate &&
    fit.agree >= CONVINCING_AGREEMENT &&
    fit.runnerUp <= CONVINCING_RUNNER_UP &&
    isUnlike(store, pool)
  );
}

/**
 * Is one microphone without most of what the other hears (a filtered channel)? Then a first push that the best fit doesn't
 * confirm is the filter's. Real-time safe: yes.
 */
export const isUnlike = (store: HitStore, pool: Pool): boolean =>
  Math.abs(tiltDifferenceDb(store, pool)) >= UNLIKE_TILT_DB;

export interface Answered {
  delay: number;
  sign: number;
  spread: number;
  members: number;
}

/**
 * 90 %, samples; NaN where the best fit goes the other way, or lies on another swing. Real-time safe: yes.
 * @param noiseMove how far noise may move the delay, samples
 */
export function uncertaintyOf(
  sampleRate: number,
  store: HitStore,
  pool: Pool,
  fit: AttackFit,
  answer: Answered,
  noiseMove: number,
): number {
  if (fit.sign !== answer.sign) return Number.NaN;
  const apart = Math.abs(fit.delay - answer.delay);
  if (!(apart <= FAR_APART_SECONDS * sampleRate)) return Number.NaN;
  let rise = 0;
  for (let i = 0; i < pool.drumHits; i++)
    rise += Math.abs(store.riseDifference[pool.drumSlots[i] as number] as number) / pool.drumHits;
  // a microphone with less top delays push and fit alike: only the difference in tilt shows it
  const unlike = Math.max(0, Math.abs(tiltDifferenceDb(store, pool)) - USUAL_TILT_DB);
  const dull = TILT_SECONDS_PER_DB * sampleRate * unlike;
  const scatter = (NINETY * MAD_TO_DEVIATION * answer.spread) / Math.sqrt(Math.max(1, answer.members));
  const place = PLACE_SHARE * answer.spread;
  const bias = APART_FACTOR * apart;
  const rest = RISE_SHARE * rise;
  const least = NINETY * PICK_FLOOR_SECONDS * sampleRate;
  return Math.sqrt(scatter ** 2 + place ** 2 + bias ** 2 + rest ** 2 + dull ** 2 + least ** 2 + noiseMove ** 2);
}
