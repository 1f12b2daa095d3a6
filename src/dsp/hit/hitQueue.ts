/** The hits under way, oldest first, and the stage that each has reached. */

/** hits under way at a time */
const PLACES = 8;

/** what is to be done next with a hit; SUM is the last */
export const PICK = 0;
export const PICK_LOW = 1;
export const PRINT = 2;
export const CORRELATE = 3;
export const LOOK_FAR = 4;
export const CORRELATE_FAR = 5;
export const SUM = 6;

export class HitQueue {
  count = 0;
  private readonly serials = new Float64Array(PLACES);
  private readonly stages = new Uint8Array(PLACES);

  get full(): boolean {
    return this.count === PLACES;
  }

  /** Real-time safe: yes, unless it is full. */
  add(serial: number): void {
    this.serials[this.count] = serial;
    this.stages[this.count] = PICK;
    this.count++;
  }

  serial(i: number): number {
    return this.serials[i] as number;
  }

  stage(i: number): number {
    return this.stages[i] as number;
  }

  /** The next stage of hit i. Real-time safe: yes. */
  advance(i: number): void {
    this.stages[i] = (this.stages[i] as number) + 1;
  }

  /** A later stage of hit i. Real-time safe: yes. */
  skipTo(i: number, stage: number): void {
    this.stages[i] = stage;
  }

  /** The oldest is done. Real-time safe: yes. */
  shift(): void {
    this.serials.copyWithin(0, 1, this.count);
    this.stages.copyWithin(0, 1, this.count);
    this.count--;
  }

  clear(): void {
    this.count = 0;
  }
}
