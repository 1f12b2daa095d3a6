/**
 * Which input is which: someone speaks close to one microphone, and the input that moved is named.
 *
 * What counts is how far each input stands above its own floor, not the two levels against each other: one preamp may
 * stand 20 dB higher than the other. Close speech at 3 cm against 12 cm is 12 dB (1/r).
 */

/** dB above its own floor, and above what the other input rose, that name an input */
export const RISE_DB = 12;
/** for so long without a break, s */
export const HOLD_SECONDS = 0.3;
/** both have risen, neither above the other, for so long in all: a mix, or two mics side by side, s */
export const ALIKE_SECONDS = 1;
/** nothing is named before the floors have been heard for so long, s */
export const SETTLE_SECONDS = 0.5;
/** the lowest floor worth counting from, dBFS: digital silence is no floor */
const LOWEST_DBFS = -90;
/** a floor gives way to steady noise this slowly, dB/s: speech is not taken for one */
const FLOOR_RISE_DB_PER_SECOND = 0.5;
/** levels farther apart in time are no unbroken rise, s */
const BREAK_SECONDS = 0.25;

export class InputIdentifier {
  private startSeconds: number | null = null;
  private lastSeconds = 0;
  private floorADbfs = 0;
  private floorBDbfs = 0;
  private candidate: 'a' | 'b' | null = null;
  private candidateSinceSeconds = 0;
  private alikeSeconds = 0;

  reset(): void {
    this.startSeconds = null;
    this.candidate = null;
    this.alikeSeconds = 0;
  }

  /** What is spoken is in both inputs alike, since the last reset. */
  get alike(): boolean {
    return this.alikeSeconds >= ALIKE_SECONDS;
  }

  /**
   * @param timeSeconds rising; a step back begins again
   * @param levelADbfs, levelBDbfs RMS; null for digital silence
   * @returns the input that moved, as long as it stands out; else null
   */
  push(timeSeconds: number, levelADbfs: number | null, levelBDbfs: number | null): 'a' | 'b' | null {
    const a = Math.max(LOWEST_DBFS, levelADbfs ?? LOWEST_DBFS);
    const b = Math.max(LOWEST_DBFS, levelBDbfs ?? LOWEST_DBFS);
    if (this.startSeconds === null || timeSeconds < this.lastSeconds) {
      this.startSeconds = timeSeconds;
      this.lastSeconds = timeSeconds;
      this.floorADbfs = a;
      this.floorBDbfs = b;
      this.candidate = null;
      this.alikeSeconds = 0;
      return null;
    }
    const step = timeSeconds - this.lastSeconds;
    this.lastSeconds = timeSeconds;
    this.floorADbfs = Math.min(a, this.floorADbfs + step * FLOOR_RISE_DB_PER_SECOND);
    this.floorBDbfs = Math.min(b, this.floorBDbfs + step * FLOOR_RISE_DB_PER_SECOND);

    const riseA = a - this.floorADbfs;
    const riseB = b - this.floorBDbfs;
    let moved: 'a' | 'b' | null = null;
    if (riseA >= RISE_DB && riseA - riseB >= RISE_DB) moved = 'a';
    if (riseB >= RISE_DB && riseB - riseA >= RISE_DB) moved = 'b';
    if (Math.min(riseA, riseB) >= RISE_DB && moved === null && step <= BREAK_SECONDS) this.alikeSeconds += step;
    if (moved !== this.candidate || step > BREAK_SECONDS) {
      this.candidate = moved;
      this.candidateSinceSeconds = timeSeconds;
    }
    const settled = timeSeconds - this.startSeconds >= SETTLE_SECONDS;
    const held = timeSeconds - this.candidateSinceSeconds >= HOLD_SECONDS;
    return settled && held ? this.candidate : null;
  }
}
