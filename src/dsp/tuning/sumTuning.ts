/** What the sum says over the hits of one drum. */
import { fixed } from './fixed';

export const SUM = fixed({
  /** hits that a sum needs. Evidence: first trials: its sign holds within 3 hits wherever it is ≥ 1 dB (30–150 Hz: 19 of 21 firm pairs; 150–800 Hz: 20 of 21). */
  hitsNeeded: 3,
  /** dB below each microphone's strongest octave within which the drum's own low octave lies. Evidence: a definition, so that a snare isn't judged by energy 16–26 dB below its body. */
  withinStrongestDb: 10,
  /** dB over the noise between hits by which it stands. Evidence: a definition; no trial on record. */
  overNoiseDb: 15,
  /** dB below which neither polarity is fuller. Evidence: as in `hitsNeeded`. */
  eitherDb: 1,
  /** standard deviations over what unrelated inputs give, and least coherence, from which a band is carried. Evidence: no record. */
  deviations: 3,
  leastCoherence: 0.1,
  /** coherence over the whole band, by energy, from which what it sums to is told. Evidence: told gains lie within 0.15 dB of those really summed down to 0.3 (real files and takes, 36 pairs). */
  leastWhole: 0.3,
  /** share of the stretches that count as independent: a hit decays within its window. Evidence: no record. */
  independent: 0.7,
  /** share of the cases in which unrelated inputs may be shown at a point of the spectrum. Evidence: a choice; on unrelated noise it holds (tests). */
  chance: 0.01,
  /** |correlation| over which both inputs carry one signal, over how many hits. Evidence: 0.9995: first trials; hits: no record. */
  sameSignal: 0.9995,
  sameSignalHits: 2,
  /** the same in the attack band: two microphones at one spot differ there, copies don't. Evidence: no record. */
  sameAttack: 0.995,
});
export type SumTuning = typeof SUM;
