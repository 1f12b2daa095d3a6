/** Last step: what is wrong with the whole, and which switches serve it best. */
import type { MicGuess } from '../../advice/names/guessPair';
import { pathCm } from '../../reading/acoustics';
import { faultsOf } from '../faults/faults';
import type { DrumReport, TakeReport } from '../model';
import type { LabelledHits } from './labelHits';

export interface TakeFacts {
  /** of each track its file's name, and what that says */
  files: readonly string[];
  mics: readonly MicGuess[];
  sampleRate: number;
  /** sample frames */
  frames: number;
  temperatureC: number;
}

/** @param drums one a task, in their order */
export function concludeTake(
  { files, mics, sampleRate, frames, temperatureC }: TakeFacts,
  { heard, hits, tasks, tiltsDb, close }: LabelledHits,
  drums: DrumReport[],
): TakeReport {
  const faults = faultsOf({
    tracks: heard.reports,
    drums,
    same: heard.same,
    sounds: tasks.flatMap(({ drum, own }, d) => {
      const tilt = tiltsDb[d] ?? null;
      const { pitchHz } = drums[d] as DrumReport;
      return own === null || tilt === null ? [] : [{ track: own, drum, pitchHz, tiltDb: tilt }];
    }),
    close,
    files,
    mics,
    sampleRate,
    cmPerSecond: pathCm(1, temperatureC),
  });
  return {
    sampleRate,
    durationSeconds: frames / sampleRate,
    tracks: heard.reports,
    hits,
    drums,
    faults,
  };
}
