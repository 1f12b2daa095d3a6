/** What a person says of a take's tracks, by file: which mic one is, or that it is left out; and how many are read. */
import { guessMic, hearsAll, type MicGuess } from '../../advice/names/guessPair';
import type { TakeReport, TakeTrack, TrackReport } from '../model';
import { stemOf } from '../names';

export const LEFT_OUT = 'left-out';
export type ToldMic = MicGuess | typeof LEFT_OUT;
/** By file, as `TakeTrack.file`. Nothing said: its name says it. */
export type Told = ReadonlyMap<string, ToldMic>;

/** as many as a kit sheet has mics; each is listened to whole, and every pair of those that hear the kit is read */
export const MOST_TRACKS = 32;
const TOO_MANY = `Not read: ${MOST_TRACKS} tracks are read at most. Leave another one out to have this one read.`;
const AS_TOLD = 'Left out, as you said.';

export interface ToldTracks {
  /** those to be read */
  tracks: TakeTrack[];
  mics: (MicGuess | null)[];
  /** the report of those, with the ones that were left out where they stood */
  whole(report: TakeReport): TakeReport;
}

export function toldTracks(given: readonly TakeTrack[], told: Told): ToldTracks {
  const kept: TakeTrack[] = [];
  const reasons = given.map((track): string => {
    if (told.get(track.file) === LEFT_OUT) return AS_TOLD;
    // what can't be read takes no place
    const read = kept.filter(({ problem }) => problem === undefined).length;
    if (track.problem === undefined && read >= MOST_TRACKS) return TOO_MANY;
    kept.push(track);
    return '';
  });
  const micOf = ({ file }: TakeTrack): MicGuess | null => {
    const mic = told.get(file);
    return mic === undefined || mic === LEFT_OUT ? null : mic;
  };
  return {
    tracks: kept,
    mics: kept.map(micOf),
    whole(report) {
      const read = report.tracks.values();
      const tracks = given.map((track, t) =>
        reasons[t] === '' ? (read.next().value as TrackReport) : outReport(track, reasons[t] as string),
      );
      return { ...report, tracks };
    },
  };
}

function outReport({ file, channel }: TakeTrack, reason: string): TrackReport {
  const mic = guessMic(stemOf(file));
  return {
    file,
    channel,
    microphone: mic.label,
    drum: hearsAll(mic) || mic.drum === '' ? null : mic.drum,
    state: LEFT_OUT,
    reason,
  };
}
