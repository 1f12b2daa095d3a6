/** Whose hit it is, which drum the reading is about, and what one drum's hits tell of the others'. */
import { fixed } from './fixed';

export const DRUM = fixed({
  sorter: {
    /** dB, RMS distance of fingerprints within which hits are of one drum. Evidence: second estimator's trials, on simulated kits. */
    sameDrumDb: 5.5,
    /** dB, RMS distance within the one channel and within the other, from which hits after a jump of the delay are another drum's. Evidence: takes of a real kit, where nothing moves. */
    partDb: 2,
    /** hits that a drum's fingerprint is averaged over. Evidence: no record. */
    averagedHits: 12,
    /** hits without one of a drum after which it gives its place up. Evidence: no record. */
    forgottenHits: 32,
    /** dB by which a hit's low end lies below a drum's usual, so that it is a cymbal's. Evidence: no record. */
    muchSofterDb: 9,
    /** hits that a drum's low end led, and share of its hits, from which it isn't read from hits that something high led. Evidence: no record. */
    ledHits: 2,
    ledShare: 0.2,
    /** s (7 cm of path): of two drums that sound alike, a hit is the one's whose delay is within this. Evidence: no record. */
    sameDelaySeconds: 0.0002,
    /** hits of neither, one after the other, after which both begin anew: a microphone was moved. Evidence: no record. */
    strayHits: 3,
  },
  twoDelays: {
    /** s (14 cm of path) by which two drums that sound alike lie apart at least. Evidence: no record. */
    apartSeconds: 0.0004,
    /** share of that within which the hits of each lie. Evidence: no record. */
    scatterShare: 0.5,
    /** hits of each at least. Evidence: no record. */
    leastHits: 3,
    /** changes from one to the other and back: a microphone that was moved gives two delays as well, but one after the other. Evidence: no record. */
    leastTurns: 4,
    /** newest hits looked at. Evidence: no record. */
    newestHits: 16,
  },
  heard: {
    /** newest hits, of whatever drum, by which an input is judged: clipped, heard on one side only. Evidence: no record. */
    newestHits: 16,
    /** s (1.7 cm of path): an answer that comes back so far from where it was, after a move, holds for the other drums too. Evidence: no record. */
    movedSeconds: 0.00005,
    /** dB from which one drum is clearly louder than another in a microphone: that stands at it. Evidence: a close microphone hears its own drum 10–40 dB over the others (real takes). */
    clearlyLouderDb: 5,
    /** dB from which it stays found: what is louder in two overheads changes with every drum that is played. Evidence: as above; the snare leads the toms by 1 dB there. */
    stillLouderDb: 3,
    /** dB for B, which is asked only where A stands at none. */
    muchLouderDb: 10,
    /** hits that a drum needs for its level to count. Evidence: no record. */
    leastHits: 3,
    /** clearly louder drums with fewer, or louder hits with dropped audio, from which it is open which drum a microphone stands at. Evidence: a snare's take of which a third was lost, answered for a tom 14 dB softer. */
    strayDrums: 2,
    /** s (10 cm) within which both microphones hear a drum at once. Evidence: no record. */
    togetherSeconds: 0.0003,
  },
});
export type SorterTuning = typeof DRUM.sorter;
export type TwoDelaysTuning = typeof DRUM.twoDelays;
export type HeardDrumsTuning = typeof DRUM.heard;
