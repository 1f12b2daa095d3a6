/** What is read of a whole take: its tracks, who was struck, every pair, and what is wrong with it. Plain values, as JSON. */

import type { PairKindId } from '../advice/plan/pairKinds';
import type { ChannelTrack } from '../files/openChannels';
import type { PairReading } from './pairs/readPair';

/** `left-out`: a person said so, or there are too many */
export const TRACK_STATES = ['ok', 'silent', 'clipped', 'unreadable', 'left-out'] as const;
export type TrackState = (typeof TRACK_STATES)[number];

export interface TrackReport {
  file: string;
  /** from 1 */
  channel: number;
  /** what its name says; empty: nothing */
  microphone: string;
  /** the drum that it is close to; null: it hears all, or nobody knows */
  drum: string | null;
  state: TrackState;
  /** one sentence; empty where all is well */
  reason: string;
}

export interface HitReport {
  timeSeconds: number;
  /** all that were struck within 20 ms, the loudest first; empty: what it was nobody knows */
  drums: string[];
}

export type PairReport = {
  a: string;
  b: string;
  kind: PairKindId;
  /** what the answer is read from: the pair's own hits, or the other tracks, which hear the same hits; `reason` says which */
  from: 'hits' | 'others';
} & PairReading;

export interface DrumReport {
  drum: string;
  /** the track whose microphone is close to it; null: none is */
  ownTrack: string | null;
  /** the note that it rings on in its own track, Hz; null: none */
  pitchHz: number | null;
  hits: number;
  /** struck alone: what the readings are made of */
  hitsUsable: number;
  pairs: PairReport[];
}

export const FAULT_KINDS = ['inverted', 'silent', 'swapped', 'same-signal', 'clipped', 'late'] as const;
export interface Fault {
  kind: (typeof FAULT_KINDS)[number];
  files: string[];
  /** by how many samples, where it is a matter of time */
  samples: number | null;
  /** the evidence, and what to do */
  text: string;
}

export interface TakeReport {
  sampleRate: number;
  durationSeconds: number;
  tracks: TrackReport[];
  hits: HitReport[];
  drums: DrumReport[];
  faults: Fault[];
}

/** What comes in: one channel of an opened file. */
export type TakeTrack = ChannelTrack;

/** How far it has come. `share` 0–1. */
export interface TakeProgress {
  share: number;
  /** what is being done, in words */
  doing: string;
}
