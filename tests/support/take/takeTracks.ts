/** Tracks in memory as the take reader wants them. */
import type { TakeTrack } from '../../../src/take/model';

export function takeTracks(files: readonly string[], tracks: readonly Float32Array[], sampleRate: number): TakeTrack[] {
  return tracks.map((x, t) => ({
    file: files[t],
    channel: 1,
    sampleRate,
    frames: x.length,
    startFrame: null,
    read(from, into) {
      const part = x.subarray(from, from + into.length);
      into.set(part);
      return Promise.resolve(part.length);
    },
  }));
}
