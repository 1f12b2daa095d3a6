import type { Reading } from '../../reading/reading';

/** Several drums are heard: they are listed, each with its own answer. */
export const severalDrums = (reading: Reading | null): boolean => (reading?.drums.length ?? 0) > 1;
