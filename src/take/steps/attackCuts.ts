/** What is needed of a drum's hits to lay all its tracks on each other: their first tenths of a second only. */
import type { PieceLengths } from '../pairs/pieces';
import type { DrumTracks } from '../together/together';

/** before the levels rise, and after: a hit begins within 3 ms before and 30 ms after, and is heard up to 34 ms earlier or later, s */
const BEFORE_SECONDS = 0.045;
const AFTER_SECONDS = 0.12;

export class AttackCuts {
  private readonly pieces = new Map<string, Float32Array[]>();
  private readonly from: number;
  private readonly to: number;

  constructor(
    { beforeFrames, frames }: PieceLengths,
    private readonly sampleRate: number,
  ) {
    this.from = Math.max(0, beforeFrames - Math.round(BEFORE_SECONDS * sampleRate));
    this.to = Math.min(frames, beforeFrames + Math.round(AFTER_SECONDS * sampleRate));
  }

  /** @param pieces of that track, whole */
  keep(file: string, pieces: readonly Float32Array[]): void {
    if (this.pieces.has(file)) return;
    this.pieces.set(
      file,
      pieces.map((piece) => piece.slice(this.from, this.to)),
    );
  }

  /** @param begins frame of each whole piece at which the drum's own track begins */
  heardBy(begins: readonly number[]): DrumTracks {
    return { sampleRate: this.sampleRate, pieces: this.pieces, begins: begins.map((frame) => frame - this.from) };
  }
}
