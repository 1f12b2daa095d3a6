/** When the shown drum was hit last: also when other drums have been played since for so long that a reading no longer tells of it. */
import type { Reading } from '../../reading/reading';

/** hits older than this have their time told, s */
const OLD_HIT_SECONDS = 15;

export class NewestHit {
  /** of each drum's newest hit, by the drums' ids: seconds of the stream */
  private readonly seconds = new Map<number, number>();
  private streamSeconds = 0;
  /** what was told last, and of which hit */
  private at: Date | null = null;
  private of = Number.NaN;

  /**
   * Of every reading that is shown.
   * @returns the time of the shown drum's newest hit, one and the same as long as there is no newer one; null: it isn't long ago, or there is none
   */
  told(
    { perHit, drum, streamSeconds }: Pick<Reading, 'perHit' | 'drum' | 'streamSeconds'>,
    clock: () => Date,
  ): Date | null {
    // after a start anew drums are numbered anew
    if (streamSeconds < this.streamSeconds) this.clear();
    this.streamSeconds = streamSeconds;
    for (const hit of perHit) if (hit.drum !== null) this.seconds.set(hit.drum, hit.timeSeconds);
    const newest = drum === null ? undefined : this.seconds.get(drum);
    if (newest === undefined || streamSeconds - newest < OLD_HIT_SECONDS) return null;
    if (newest !== this.of) this.at = new Date(clock().getTime() - (streamSeconds - newest) * 1000);
    this.of = newest;
    return this.at;
  }

  clear(): void {
    this.seconds.clear();
    this.streamSeconds = 0;
    this.at = null;
    this.of = Number.NaN;
  }
}
