/** One drum's hits cut out of the tracks, as they are needed: no more are held than a few tracks'. */
import { cutPieces } from '../pairs/cutPieces';
import type { AlignedTrack } from '../report/tracks';
import { goOn } from './cancelled';

/** tracks whose pieces are held: 16 hits of one come to 1.4 MB at 48 kHz */
const HELD = 10;

export class PieceStore {
  private readonly held = new Map<number, Promise<Float32Array[]>>();

  /** @param starts frame of the take at which each piece begins @param frames of a piece */
  constructor(
    private readonly tracks: readonly (AlignedTrack | null)[],
    private readonly starts: readonly number[],
    private readonly frames: number,
    private readonly isCancelled?: () => boolean,
  ) {}

  /** The pieces of a track, by its number. */
  of(t: number): Promise<Float32Array[]> {
    const found =
      this.held.get(t) ??
      cutPieces(this.tracks[t] as AlignedTrack, this.starts, this.frames, () => goOn(this.isCancelled));
    // the one that was asked for last goes last
    this.held.delete(t);
    this.held.set(t, found);
    for (const oldest of this.held.keys()) {
      if (this.held.size <= HELD) break;
      this.held.delete(oldest);
    }
    return found;
  }
}
