/**
 * What the tone does: it rises as B comes nearer to its place, in pulses; at its place it is steady, with a fifth over it,
 * so that the shape tells it and not the pitch alone. The frequencies are a choice of ours, no source.
 */

import type { PlanContext } from '../../advice/plan/planTypes';
import { toGoOf } from '../../advice/plan/withoutAnswer';
import type { Reading, Said } from '../../reading/reading';

/** from here on it is as low as it goes, cm */
export const FAR_CM = 30;
export const FAR_HZ = 220;
/** at its place */
export const NEAR_HZ = 880;
/** the second tone, over the first */
const FIFTH = 1.5;
/** a hit older than this says nothing of where the mic is now, s */
export const HIT_SECONDS = 3;

export type Tone = { shape: 'pulses'; hz: number } | { shape: 'steady'; hz: number; overHz: number };

export const AT_ITS_PLACE: Tone = { shape: 'steady', hz: NEAR_HZ, overHz: NEAR_HZ * FIFTH };

/**
 * Two octaves over the way that is left, finer the nearer: the last centimetre has almost a fifth of the rise.
 * @param toGoCm either way. @returns Hz, FAR_HZ to NEAR_HZ, never lower for a shorter way
 */
export function toneHz(toGoCm: number): number {
  const left = Math.min(1, Math.abs(toGoCm) / FAR_CM);
  return FAR_HZ * (NEAR_HZ / FAR_HZ) ** (1 - Math.sqrt(left));
}

export interface ToneState {
  reading: Reading | null;
  /** what the answer on the screen stands on */
  answer: Said | null;
  context: PlanContext;
  /** the meter measures, isn't held, and the reading is of what is set now */
  live: boolean;
}

/** @returns null: silence. Only while a move is followed, and only for a moment after a hit */
export function toneOf({ reading, answer, context, live }: ToneState): Tone | null {
  if (!live || reading === null || answer?.state !== 'following') return null;
  const { perHit, drum, streamSeconds } = reading;
  const newest = Math.max(...perHit.filter((hit) => hit.drum === drum).map(({ timeSeconds }) => timeSeconds));
  // no hit of that drum at all: minus infinity
  if (!(streamSeconds - newest <= HIT_SECONDS)) return null;
  const toGo = toGoOf(reading, answer, context);
  if (toGo.code === 'not-known') return null;
  return toGo.code === 'stop' ? AT_ITS_PLACE : { shape: 'pulses', hz: toneHz(toGo.moveCm) };
}
