/** From all that is known to one state. */
import { fixed } from './fixed';

export const VERDICT = fixed({
  /** s of zeros on both inputs that are no data, not silence. Evidence: no record. */
  gapSeconds: 0.02,
  /** s of samples that aren't 0 and equal in both, from which the inputs are one. Evidence: no record. */
  identicalSeconds: 0.2,
  /** s after the start in which silence isn't told of yet. Evidence: no record. */
  startSeconds: 2,
  /** newest hits from which clipping in more than half of them is an overload. Evidence: no record. */
  clippedHits: 2,
  /** one-sided hits from which more than half of them mean that an input hears nothing. Evidence: no record. */
  oneSidedHits: 3,
  /** hits heard of all drums from which too few of one are told as several drums. Evidence: no record. */
  drumHitsSeen: 8,
});
export type VerdictTuning = typeof VERDICT;
