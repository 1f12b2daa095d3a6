/**
 * Octave bands round 31.5 Hz, 63 Hz … 8 kHz in the base-two system: mid 1000 · 2ⁿ Hz, edges √2 from it (IEC 61260-1:2014, annex D,
 * informative; IEC 61260:1995 had it beside base ten). The 2014 edition's own bands are base-ten and lie within 1.2 % of these.
 */
export const OCTAVE_BANDS = 9;
/** Lower edge of band k, Hz; the upper one is twice that. */
export const octaveLowHz = (k: number): number => (1000 / Math.SQRT2) * 2 ** (k - 5);
