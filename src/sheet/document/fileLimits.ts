/** Longer texts, more microphones or pairs, larger files than these are no sheet of ours. */

export const MOST_FILE_BYTES = 10_000_000;
export const MOST_MICROPHONES = 32;
export const MOST_PAIRS = 500;
/** letters */
export const MOST_LABEL = 80;
export const MOST_NOTE = 2000;
export const MOST_FILE_NAME = 300;
/** the present, and what a delay or a move would make of it */
export const MOST_TIMINGS = 8;
