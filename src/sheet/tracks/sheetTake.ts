/** What a sheet asks of a take. */
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { Reading } from '../../reading/reading';
import type { TrackMic } from './sheetMics';

/** A pair of tracks as it was read. */
export interface TrackPair {
  drum: string;
  /** files */
  a: string;
  b: string;
  kind: PairKindId;
  reading: Reading;
}

/** A take, as far as a sheet asks. */
export interface SheetTake {
  sampleRate: number;
  temperatureC: number;
  tracks: readonly TrackMic[];
  /** in their order; `own`: the file of the mic that the others are compared with */
  drums: readonly { drum: string; own: string | null }[];
  /** those that hold */
  pairs: readonly TrackPair[];
}
