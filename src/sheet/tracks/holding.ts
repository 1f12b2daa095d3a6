/** What of a take's readings holds: what its report says of a pair is what that pair's reading says by itself. */
import type { ReadingState } from '../../reading/codes';
import { answerOf, type Polarity, type Reading } from '../../reading/reading';
import type { SheetTake, TrackPair } from './sheetTake';

/** A pair as the report tells it. */
export interface ToldPair {
  a: string;
  b: string;
  /** `others`: it follows from other pairs, and says nothing new beside them */
  from: 'hits' | 'others';
  state: ReadingState;
  polarity: Polarity | null;
  delaySamples: number | null;
}

/** A drum as the report tells it. */
export interface ToldDrum {
  drum: string;
  ownTrack: string | null;
  pairs: readonly ToldPair[];
}

/** All tracks together may have taken back what single readings say, or answered where their own hits don't. */
export function saysTheSame(
  { from, state, polarity, delaySamples }: Omit<ToldPair, 'a' | 'b'>,
  reading: Reading,
): boolean {
  if (from === 'others') return false;
  const answer = answerOf(reading);
  if (state !== answer.state || polarity !== answer.polarity) return false;
  const own = answer.state === 'measured' ? answer.delaySamples : null;
  return own === null || delaySamples === null ? own === delaySamples : Math.abs(own - delaySamples) < SAME_SAMPLES;
}
/** the report is cut to nine digits */
const SAME_SAMPLES = 1e-3;

/** The drums as a sheet asks for them, and the sure readings that hold: nothing else is put on a sheet. */
export function holding<P extends TrackPair>(
  drums: readonly ToldDrum[],
  pairs: readonly P[],
): { drums: SheetTake['drums']; pairs: P[] } {
  return {
    drums: drums.map(({ drum, ownTrack }) => ({ drum, own: ownTrack })),
    pairs: pairs.filter(({ drum, a, b, reading }) => {
      const told = drums.find((one) => one.drum === drum)?.pairs.find((one) => one.a === a && one.b === b);
      return told?.state === 'measured' && saysTheSame(told, reading);
    }),
  };
}

/**
 * Of drums whose own mic can be compared with some other. What far mics hear of any other drum is put on a sheet only where
 * that drum is asked for.
 */
export function soundPairs({ drums, pairs }: Pick<SheetTake, 'drums' | 'pairs'>): TrackPair[] {
  const ownOf = new Map(drums.map(({ drum, own }) => [drum, own]));
  const sound = new Set(pairs.flatMap(({ drum, a, b }) => ([a, b].includes(ownOf.get(drum) ?? '') ? [drum] : [])));
  return pairs.filter(({ drum }) => sound.has(drum));
}
