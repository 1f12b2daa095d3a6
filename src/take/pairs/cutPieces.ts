/** Cuts a track's pieces out, one for each hit. */
import type { AlignedTrack } from '../report/tracks';
import { fadeEnds } from './pieces';

/**
 * @param starts frames of the take at which pieces begin; what lies before its beginning, or after its end, is silence
 * @param goOn is called before each, and may throw
 */
export async function cutPieces(
  track: AlignedTrack,
  starts: readonly number[],
  frames: number,
  goOn: () => void = () => undefined,
): Promise<Float32Array[]> {
  const pieces: Float32Array[] = [];
  for (const start of starts) {
    goOn();
    const piece = new Float32Array(frames);
    const skip = Math.max(0, -start);
    if (skip < frames) await track.read(start + skip, piece.subarray(skip));
    fadeEnds(piece, track.sampleRate);
    pieces.push(piece);
  }
  return pieces;
}
