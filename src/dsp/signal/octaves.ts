/** The octave bands of IEC 61260 (mid 31.5 Hz, 63 Hz … 8 kHz; base 2, from memory). */
export const OCTAVE_BANDS = 9;
/** Lower edge of band k, Hz; the upper one is twice that. */
export const octaveLowHz = (k: number): number => (1000 / Math.SQRT2) * 2 ** (k - 5);
