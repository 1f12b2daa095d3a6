/** Where the stream was no sound, and whether a hit may begin. */

/** A sample of ±1 is full scale. */
const MOST_SAMPLE = 1000;
/** after a gap nothing that begins is a hit for so long: the sound sets in at once, and filters settle, s */
const AFTER_SECONDS = 0.08;

/** NaN compares as false. */
export const isSound = (x: number): boolean => x > -MOST_SAMPLE && x < MOST_SAMPLE;

export class GapGate {
  /** frames so far that were no sound in either channel */
  gapFrames = 0;
  private inStep = false;
  private until = 0;
  private readonly after: number;

  constructor(sampleRate: number) {
    this.after = Math.round(AFTER_SECONDS * sampleRate);
  }

  /** A frame is none. Real-time safe: yes. */
  note(): void {
    this.gapFrames++;
    this.inStep = true;
  }

  /** @param end the frame after the step's last. @returns whether there was a gap in the step. Real-time safe: yes. */
  close(end: number): boolean {
    const was = this.inStep;
    this.inStep = false;
    if (was) this.until = end + this.after;
    return was;
  }

  /** May a hit begin in the step that starts there? Real-time safe: yes. */
  isOpen(frame: number): boolean {
    return frame >= this.until;
  }
}
