/**
 * How far from the truth an answer may be. The factors were found on drawn scenes with known geometry (seeds 1000–1119)
 * together; on others (5000–5099) the truth lies within the 90 % in 94 of 94.
 */
import { fixed } from './fixed';

export const UNCERTAINTY = fixed({
  /** s, what a pick can't know better. Evidence: drawn scenes; raised from 6 to 12, then 14 µs. */
  pickFloorSeconds: 0.000014,
  /** share of the difference of rises that a 10 % foot may hide. Evidence: drawn scenes; raised from 0.1. */
  riseShare: 0.15,
  /** share of the hits' spread: they are struck at different places, and a handful doesn't show the middle. Evidence: drawn scenes. */
  placeShare: 1,
  /** times the distance of first push and best fit: the truth lies between them, or a little outside. Evidence: drawn scenes. */
  apartFactor: 1.2,
  /** s beyond which they are of different swings: no uncertainty is known. Evidence: no record. */
  farApartSeconds: 0.0005,
  /** s per dB of tilt difference beyond the usual, and what is usual, dB. Evidence: real recordings with one channel low-passed at 1.5 kHz. */
  tiltSecondsPerDb: 0.000012,
  usualTiltDb: 6,
  /** dB of tilt difference from which microphones are unlike. Evidence: no record. */
  unlikeTiltDb: 8,
  /** s by which a convincing fit then lies off where first pushes are bent. Evidence: no record. */
  unlikeApartSeconds: 0.00007,
  /** share of the hits that agree with a convincing fit, and its runner-up's score at most. Evidence: no record. */
  convincingAgreement: 0.85,
  convincingRunnerUp: 0.2,
});
export type UncertaintyTuning = typeof UNCERTAINTY;
