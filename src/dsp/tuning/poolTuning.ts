/** What most hits of one drum say, by each witness alone. */
import { fixed } from './fixed';

export const MODE = fixed({
  /** s within which, with one sign, hits say the same. Evidence: first trials. By chance 4 of 8 picks lie so close with a probability of 7·10⁻⁴, 6 of 12 with 10⁻⁶ (picks anywhere in 15 ms). */
  withinSeconds: 0.00008,
  /** newest of them whose median is the delay: where the microphones are now. Evidence: first trials looked at 8 to 16 hits; the split between delay and spread: no record. */
  newestHits: 8,
});
export type ModeTuning = typeof MODE;

export const PICK = fixed({
  /** quality from which a first arrival has its full weight. Evidence: first trials. */
  fullQuality: 16,
  /** share of the weight within the mode that makes it sure. Evidence: first trials. */
  share: 0.75,
  /** s, median deviation of the mode's hits within which it is sure. Evidence: first trials. */
  spreadSeconds: 0.00005,
  /** share of the drum's hits that have a usable first arrival. Evidence: first trials. */
  usableShare: 0.5,
});
export type PickTuning = typeof PICK;

export const LOW = fixed({
  /** hits that show that no softer push came before the low end's. Evidence: a real groove's kick, which is found with it; no figures on record. Shares and spread as in `pick`. */
  clearHits: 1,
});
export type LowTuning = typeof LOW;

export const WAVE = fixed({
  /** highest opposite peak over the peak below which a hit's correlation is clear. Evidence: first trials. */
  clearRival: 0.5,
  /** share of the clear hits within the mode that makes it sure. Evidence: first trials. */
  share: 0.85,
  /** share of the drum's hits that are clear. Evidence: first trials. */
  clearShare: 0.5,
});
export type WaveTuning = typeof WAVE;
