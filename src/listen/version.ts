/** What can be heard of a pair: A and B as they are, or with B inverted, delayed and trimmed; and how both are put to the ears. */

/** `apart`: A left, B right, with the version's delay. */
export const PUTS = ['both', 'a', 'b', 'apart'] as const;
export type Put = (typeof PUTS)[number];

/** One of the versions that are compared, told as the inputs carry A and B (the meter's own invert isn't in it). */
export interface Version {
  /** stays while its figures change */
  id: string;
  /** as on its button: "Now" */
  name: string;
  invertB: boolean;
  /** samples, fractions too: positive, B is heard later; negative, A is */
  delayBSamples: number;
  /** on top of where B starts: A's level, or its own as recorded */
  trimBDb: number;
}

/** `equal`: B starts at A's level over the loop, as the plan has it; `recorded`: as it was recorded. */
export type Start = 'equal' | 'recorded';

/** The sound of a pair: A and B as the reading is of them (swapped, where they are), full scale ±1. */
export interface PairSound {
  /** Hz */
  sampleRate: number;
  /** equal lengths */
  a: Float32Array;
  b: Float32Array;
  /** input offset that the reading takes out, and the ear should: B's path is late by so much, samples */
  offsetSamples: number;
  /** where hits begin in it, s, ascending; of any drum */
  hitsSeconds: readonly number[];
  /** those of the drum that is read; none: nobody knows */
  ownSeconds: readonly number[];
  /** true: the newest hits are wanted, not the most usual */
  isNewest: boolean;
}

/** What one version comes to at the ears: whole delays and plain factors, ready for the mixer. */
export interface Mix {
  /** samples, none negative */
  delayASamples: number;
  delayBSamples: number;
  /** A's and B's factors to the left and to the right ear */
  aLeft: number;
  aRight: number;
  bLeft: number;
  bRight: number;
}

/** longest delay of one against the other, s: a room mic's and a little */
export const LONGEST_DELAY_SECONDS = 0.08;

/**
 * @param levelB factor that B starts with, its trim not yet in it
 * @param gain factor over all, that versions are matched with
 * @param offsetSamples of the sound, which is taken out
 */
export function mixOf(version: Version, put: Put, levelB: number, gain: number, offsetSamples = 0): Mix {
  const later = version.delayBSamples - offsetSamples;
  const b = gain * levelB * 10 ** (version.trimBDb / 20) * (version.invertB ? -1 : 1);
  const [toA, toB] = TO_EARS[put];
  return {
    delayASamples: Math.max(0, -later),
    delayBSamples: Math.max(0, later),
    aLeft: gain * toA[0],
    aRight: gain * toA[1],
    bLeft: b * toB[0],
    bRight: b * toB[1],
  };
}

type Ears = readonly [left: number, right: number];
const TO_EARS: Readonly<Record<Put, readonly [a: Ears, b: Ears]>> = {
  both: [
    [1, 1],
    [1, 1],
  ],
  a: [
    [1, 1],
    [0, 0],
  ],
  b: [
    [0, 0],
    [1, 1],
  ],
  apart: [
    [1, 0],
    [0, 1],
  ],
};
