/** The drums that were heard: what each one says, which one the reading is about, how many hits it rests on. */
import { cmPerSample } from '../../reading/acoustics';
import { answerOf, type HitCounts, type Polarity, type Reading, type Said } from '../../reading/reading';
import { type EndedReason, endedReasonOf, type Reason, reasonOf } from './reasons';

/** The drum that a reading is about, where several are heard: picked by the meter, or chosen by a person. */
export type WhichDrum = { code: 'picked' | 'chosen'; drum: number };

/** Null: one drum is heard, or none is shown. */
export function whichShown({ drums, drum, drumChosen }: Reading): WhichDrum | null {
  if (drums.length < 2 || drum === null) return null;
  return { code: drumChosen ? 'chosen' : 'picked', drum };
}

/** hits of other drums, one after the other, from which it is told that they don’t count */
const OTHERS_IN_A_ROW = 2;

/** Ids of the other drums that were hit since the shown drum's newest hit, once those are two hits at least; else, or where none is shown, none. */
export function othersPlayed({ perHit, drum }: Pick<Reading, 'perHit' | 'drum'>): number[] {
  if (drum === null) return [];
  const own = perHit.findLastIndex((hit) => hit.drum === drum);
  const since = perHit.slice(own + 1).flatMap((hit) => (hit.drum === null ? [] : [hit.drum]));
  return since.length < OTHERS_IN_A_ROW ? [] : [...new Set(since)].sort((one, other) => one - other);
}

/** Hits behind a reading. */
export interface UsedHits {
  used: number;
  of: number;
  /** `of` are the hits of all drums */
  ofAllDrums: boolean;
}

export function usedHits(reading: Reading): UsedHits {
  const { hits, drums, perHit } = reading;
  const { hitsUsed: used } = answerOf(reading);
  if (drums.length > 1) return { used, of: hits, ofAllDrums: true };
  // of one drum, those that are too old were not refused
  const running = perHit.filter((hit) => hit.fate !== 'old').length;
  return { used, of: Math.max(used, perHit.length > 0 ? running : hits), ofAllDrums: false };
}

/** What the hits of one drum say, in short. */
export type DrumSays =
  | { code: 'measured'; polarity: Polarity | null; pathCm: number }
  | { code: 'following' }
  | { code: 'ended'; reason: EndedReason }
  | { code: 'listening' | 'cannot-tell'; reason: Reason };

/** @param ended the recording is over */
export function drumSays(
  drum: Pick<Said, 'state' | 'reason' | 'polarity' | 'delaySamples' | keyof HitCounts>,
  { sampleRate, hitsNeeded }: Pick<Reading, 'sampleRate' | 'hitsNeeded'>,
  temperatureC: number,
  ended: boolean,
): DrumSays {
  const { state, polarity, delaySamples } = drum;
  if (state === 'measured' && delaySamples !== null) {
    return { code: 'measured', polarity, pathCm: delaySamples * cmPerSample(sampleRate, temperatureC) };
  }
  const stated = { hitsNeeded, ...drum };
  const over = ended ? endedReasonOf(stated) : null;
  if (over) return { code: 'ended', reason: over };
  if (state === 'following') return { code: 'following' };
  return { code: state === 'listening' ? 'listening' : 'cannot-tell', reason: reasonOf(stated) };
}
