/** Who does a take's long work: this thread, or several workers. What comes out is the same. */
import type { AlignedTrack } from './report/tracks';
import type { ScannedTrack } from './scan/levelScan';
import { type DrumTask, type HeardTracks, type LabelledHits, labelHits } from './steps/labelHits';
import { type ReadDrum, readDrum } from './steps/readDrum';
import { scanTracks } from './steps/scanTracks';

/** One of the crew can't go on: nothing can be read of the take. */
export class CrewError extends Error {}

export interface Crew {
  /** tasks that are worked on at once, from 1 */
  readonly hands: number;
  /** @param tracks numbers of one file's tracks @param onShare how far it is, 0–1 @returns of each what was heard; rejects with why not */
  scan(tracks: readonly number[], onShare: (share: number) => void): Promise<ScannedTrack[]>;
  /** `heard.scans` may be taken away with it */
  label(heard: HeardTracks): Promise<LabelledHits>;
  readDrum(task: DrumTask, onShare: (share: number) => void): Promise<ReadDrum>;
}

/** This thread alone. */
export function alone(
  tracks: readonly (AlignedTrack | null)[],
  files: readonly string[],
  isCancelled?: () => boolean,
): Crew {
  return {
    hands: 1,
    scan: (group, onShare) =>
      scanTracks(
        group.map((t) => tracks[t] as AlignedTrack),
        onShare,
        isCancelled,
      ),
    label: async (heard) => labelHits(heard),
    readDrum: (task, onShare) => readDrum(task, tracks, files, onShare, isCancelled),
  };
}

/**
 * Does tasks in their order, so many at a time.
 * @returns their results in the order of the tasks, whoever was first; rejects with the first failure, when what was begun is over
 */
export async function shared<T, R>(
  tasks: readonly T[],
  hands: number,
  work: (task: T, i: number) => Promise<R>,
): Promise<R[]> {
  const results = new Array<R>(tasks.length);
  let next = 0;
  let failed = false;
  const hand = async (): Promise<void> => {
    while (next < tasks.length && !failed) {
      const i = next++;
      try {
        results[i] = await work(tasks[i] as T, i);
      } catch (thrown) {
        failed = true;
        throw thrown;
      }
    }
  };
  const ended = await Promise.allSettled(Array.from({ length: Math.max(1, Math.min(hands, tasks.length)) }, hand));
  for (const end of ended) if (end.status === 'rejected') throw end.reason;
  return results;
}
