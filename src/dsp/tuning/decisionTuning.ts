/** When witnesses make an answer, and when they contradict each other. */
import { WITNESS_SECONDS } from '../../reading/limits';
import { fixed } from './fixed';

export const DECISION = fixed({
  /** s (10 cm of path) within which two witnesses speak of one arrival. Shared with the words. Evidence: first trials. */
  witnessSeconds: WITNESS_SECONDS,
  /** share of the drum's hits that must be behind an answer: a minority may be another drum, a reflection or a hi-hat. Evidence: no record. */
  leastAgreement: 0.75,
  fit: {
    /** trust = agreement·(1 − runner-up), from which the best fit is sure. Evidence: the trust rule's trial, better than any other statistic tried: kept 98 % of the good answers at 0.5 % wrong after 4 hits (peak ratio 51 %, height 48 %, coherence 39–46 %, scatter 32 %). */
    trust: 0.3,
    /** share of the drum's hits that agree with it at least. Evidence: no record. */
    share: 0.5,
    /** dB, median attack over noise from which it is sure. Evidence: second estimator's trials. */
    snrDb: 15,
    /** share of the hits whose first pushes must have its sign. Evidence: the trust rule's trial. */
    signs: 0.45,
  },
  low: {
    /** s (2.4 cm of path), largest uncertainty of an answer from the low end. Evidence: 2.4 cm is what the benches call a gross error; no trial on record. */
    uncertaintySeconds: 0.00007,
    /** s, median deviation of its pushes; share of the attacks that fit. Evidence: 264 simulated cases before and after both came in: wrong at the end 11 → 9, wrong readings 96 of 1638 → 88 of 1575, right 129 → 125. */
    spreadSeconds: 0.000018,
    fitAgreement: 0.6,
  },
  stack: {
    /** s within which first arrivals of the single hits lie to that of their average; where they aren't sure, as many times that. Evidence: no record. */
    nearSeconds: 0.00015,
    farFactor: 2,
    /** hits which an average needs to answer where the single hits' arrivals can't. Evidence: no record. */
    hits: 8,
    /** s by which noise may move such an answer, with and without another witness near. Evidence: no record. */
    moveSeconds: 0.00008,
    moveAloneSeconds: 0.00004,
  },
  standing: {
    /** share of the drum's hits that an answer which stood needs to stay. Evidence: a hi-hat nobody moved, whose answer came with 0.75–0.8 of its hits and stayed right with 0.63. */
    share: 0.6,
    /** newest hits that can be read: none may lie elsewhere, and two at least go the same way. Evidence: as above (of its hits, two in a row went the other way at the same place); with others elsewhere, 9 more wrong readings on 29 simulated cases with a move or a knock. */
    newestHits: 4,
    /** newest hits of which the farthest best fit counts in the uncertainty. Evidence: a snare under an overhead, whose best fit changed swings at every second or third hit: 1.7 to 25 samples by turns. */
    accuracyHits: 4,
  },
});
export type DecisionTuning = typeof DECISION;
