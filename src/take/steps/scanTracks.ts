/** First step: the tracks of one file are listened to, once, from end to end. */
import type { AlignedTrack } from '../report/tracks';
import { LevelScan, type ScannedTrack } from '../scan/levelScan';
import { goOn } from './cancelled';
import { readTogether } from './together';

/** values that are read at once, over all tracks */
const SLICE_VALUES = 1 << 17;
const MOST_FRAMES = 1 << 15;
const LEAST_FRAMES = 1 << 12;

/**
 * @param tracks of one file @param onShare how much of it is heard, 0–1
 * @returns of each track what was heard @throws TakeCancelled; whatever the tracks come with
 */
export async function scanTracks(
  tracks: readonly AlignedTrack[],
  onShare: (share: number) => void = () => undefined,
  isCancelled?: () => boolean,
): Promise<ScannedTrack[]> {
  const frames = Math.max(0, ...tracks.map((track) => track.frames));
  const levels = tracks.map((track) => new LevelScan(track.sampleRate, track.frames));
  const length = Math.max(LEAST_FRAMES, Math.min(MOST_FRAMES, Math.floor(SLICE_VALUES / tracks.length)));
  const slices = tracks.map(() => new Float32Array(length));
  for (let from = 0; from < frames; ) {
    goOn(isCancelled);
    const n = await readTogether(tracks, from, slices);
    if (n === 0) break;
    levels.forEach((level, i) => {
      const slice = slices[i] as Float32Array;
      level.push(n === length ? slice : slice.subarray(0, n));
    });
    from += n;
    onShare(from / frames);
  }
  return levels.map((level) => level.end());
}
