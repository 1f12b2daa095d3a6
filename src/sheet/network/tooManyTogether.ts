/** How many microphones can be compared at once, and what is thrown where there are more. */

/** So many microphones that readings hold together are tried; 2^15 assignments take some hundredths of a second. */
export const MOST_TOGETHER = 16;

/** Readings hold more microphones together than can be compared: nothing is wrong with the sheet, it is too large. */
export class TooManyTogether extends RangeError {
  readonly microphones: number;

  constructor(microphones: number) {
    super(`${microphones} mics are linked by readings, at most ${MOST_TOGETHER} can be compared`);
    this.name = 'TooManyTogether';
    this.microphones = microphones;
  }
}
