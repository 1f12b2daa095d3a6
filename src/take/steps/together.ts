/** Channels of one file are read at once, so that it is decoded once. */
import type { AlignedTrack } from '../report/tracks';

/** @param tracks null: can't be read @returns numbers of tracks, a list a file, in order */
export function byFile(tracks: readonly (AlignedTrack | null)[]): number[][] {
  const groups = new Map<unknown, number[]>();
  tracks.forEach((one, t) => {
    if (one === null) return;
    const key = one.track.source ?? one;
    const group = groups.get(key);
    if (group) group.push(t);
    else groups.set(key, [t]);
  });
  return [...groups.values()];
}

/** @param tracks of one file @param into one array a track, of one length @returns frames written, as `AlignedTrack.read` */
export async function readTogether(
  tracks: readonly AlignedTrack[],
  fromFrame: number,
  into: readonly Float32Array[],
): Promise<number> {
  const [first] = tracks;
  if (!first) return 0;
  const { source } = first.track;
  if (tracks.length === 1 || !source) return first.read(fromFrame, into[0] as Float32Array);
  const length = (into[0] as Float32Array).length;
  const silent = Math.max(0, Math.min(length, first.lead - fromFrame));
  for (const x of into) x.fill(0, 0, silent);
  if (silent === length) return silent;
  const channels: (Float32Array | null)[] = [];
  tracks.forEach(({ track }, i) => {
    while (channels.length < track.channel) channels.push(null);
    channels[track.channel - 1] = (into[i] as Float32Array).subarray(silent);
  });
  return silent + (await source.read(fromFrame + silent - first.lead, channels));
}
