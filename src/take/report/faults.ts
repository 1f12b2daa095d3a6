/** What is wrong with a take, most harmful first, each with its evidence. */
import type { MicGuess } from '../../advice/names/guessPair';
import type { Moment } from '../hits/events';
import type { Struck } from '../hits/strikes';
import type { DrumReport, Fault, TrackReport } from '../model';
import type { ScannedTrack } from '../scan/levelScan';

export interface Findings {
  tracks: readonly TrackReport[];
  drums: readonly DrumReport[];
  struck: Struck;
  moments: readonly Moment[];
  /** numbers of the tracks that `struck` and `moments` are of */
  listened: readonly number[];
  mics: readonly MicGuess[];
  scans: readonly (ScannedTrack | null)[];
}

export function faultsOf(_found: Findings): Fault[] {
  return [];
}
