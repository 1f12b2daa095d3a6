/** A pair of a take with the whole of its reading: for a sheet to keep, and to be looked at and heard again. */
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { Reading } from '../../reading/reading';
import type { PieceLengths } from './pieces';
import { type PairHits, reachMs } from './readPair';

/** Where a pair's hits lie in the take. */
export interface HitPlaces {
  sampleRate: number;
  lengths: PieceLengths;
  /** of each hit: frame of its piece at which it begins in A, and second of the take at which its piece begins */
  hits: readonly { begin: number; pieceSeconds: number }[];
}

export interface ReadPair {
  drum: string;
  /** files, as `TakeTrack.file` */
  a: string;
  b: string;
  kind: PairKindId;
  /** how far it was looked for a delay, ms */
  maxLagMs: number;
  places: HitPlaces;
  /** without hits and curve, which nobody asks of it afterwards */
  reading: Reading;
}

type Ends = Pick<ReadPair, 'drum' | 'a' | 'b' | 'kind'>;

export function readOf(ends: Ends, pair: PairHits, reading: Reading): ReadPair {
  const { sampleRate, lengths, hits } = pair;
  const { curve } = reading;
  return {
    ...ends,
    maxLagMs: reachMs(pair),
    places: { sampleRate, lengths, hits },
    reading: { ...reading, perHit: [], curve: { ...curve, values: new Float64Array(0), hits: 0 } },
  };
}

/** The frames at which hits begin in the stream that their pieces make, one after the other. */
export const givenFrames = ({ lengths, hits }: HitPlaces): number[] =>
  hits.map(({ begin }, i) => i * lengths.frames + begin);

/** Second of the take at a second of that stream. */
export function takeSecondsAt({ sampleRate, lengths, hits }: HitPlaces, streamSeconds: number): number {
  const frame = Math.round(streamSeconds * sampleRate);
  const i = Math.max(0, Math.min(hits.length - 1, Math.floor(frame / lengths.frames)));
  return (hits[i]?.pieceSeconds ?? 0) + (frame - i * lengths.frames) / sampleRate;
}
