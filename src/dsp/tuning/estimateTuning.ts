/** One drum's delay from all its hits together: the best fit of their attacks, and their average. */
import { fixed } from './fixed';

export const FIT = fixed({
  curve: {
    /** Hz, band of the averaged cross-spectra. Evidence: second estimator's trials. */
    lowHz: 100,
    highHz: 8000,
    /** whitening, 0 plain … 1 full. Evidence: second estimator's trials: off by more than 5 cm in 32 % plain, 5 % at 0.6, 2.9 % at 0.8 with coherence weights (tuning seeds, hits' times given). */
    beta: 0.8,
  },
  /** highest peaks of the curve that are candidates, beside the first arrivals' difference. Evidence: second estimator's trials. */
  peaks: 6,
  /** s of the attacks laid on each other, before and after the earlier arrival. Evidence: second estimator's trials. */
  beforeSeconds: 0.0015,
  afterSeconds: 0.0025,
  /** s that fade in and out. Evidence: no record. */
  fadeSeconds: 0.0005,
  /** s by which B is moved about a candidate. Evidence: second estimator's trials. */
  nearSeconds: 0.0005,
  /** s about the winner within which a hit agrees. Evidence: second estimator's trials. */
  agreeSeconds: 0.000075,
  /** preference for lags near the first arrivals' difference: floor + (1 − floor)·exp(−½(Δ/width)²); share and width, s. Evidence: second estimator's trials. A floor of 1 switches it off. */
  priorFloor: 0.35,
  priorSeconds: 0.00035,
  /** s: two candidates closer than this are one. Evidence: no record. */
  sameSeconds: 0.0001,
});
export type FitTuning = typeof FIT;
export type CurveTuning = typeof FIT.curve;

export const AVERAGE = fixed({
  /** share of the first hit's peak, and times its noise, from which its attack begins. Evidence: no record. */
  attackShare: 0.15,
  attackNoiseFactor: 2,
  /** s before and after that by which hits are laid on each other, first coarsely, then finely. Evidence: no record. */
  beforeSeconds: 0.001,
  coarseAfterSeconds: 0.003,
  fineAfterSeconds: 0.0015,
  /** s by which a hit is moved at most, coarsely and finely. Evidence: no record. */
  coarseReachSeconds: 0.002,
  fineReachSeconds: 0.0004,
  /** Hz, rate of the coarse search. Evidence: no record. */
  coarseRateHz: 24000,
  /** correlation with the average that a hit must have to join it. Evidence: no record. */
  alike: 0.7,
  /** times the usual peak beyond which a hit counts no more (3 dB): the loudest are often struck elsewhere. Evidence: no record. */
  mostGain: Math.SQRT2,
});
export type AverageTuning = typeof AVERAGE;

export const STACK = fixed({
  /** share of the peak over which a first half-wave rises. Evidence: as in `hit.arrival`. */
  shareOfPeak: 0.04,
  /** times the largest noise of the average over which it rises; the foot isn't looked for below so much. Evidence: no record. */
  noiseFactor: 2,
  footNoiseFactor: 1,
  /** times that noise over which the push must come out to count. Evidence: no record. */
  clearFactor: 4,
  /** share of the peak up to which noise may set the threshold, and times the noise over which the push then comes out: another witness is asked as well. Evidence: no record. */
  boundShareOfPeak: 0.052,
  boundClearFactor: 10,
  /** push over what comes before it, or what comes before it over the noise: one of the two must hold. Evidence: no record. */
  cleanQuality: 8,
  asNoise: 1.25,
  /** s of the kept waves: noise is looked at from the first on, pushes from the second to the third from the end. Evidence: no record. */
  noiseFromSeconds: 0.002,
  pickFromSeconds: 0.01,
  tailSeconds: 0.006,
  /** s of the whole's delay within which those of the halves lie. Evidence: no record. */
  halvesSeconds: 0.00015,
  /** s by which noise may move the delay. How far it does: the foot is lifted by a share of the largest noise, up to a share of the summit. Evidence: no record. */
  moveSeconds: 0.00012,
  moveNoiseShare: 0.6,
  moveMostShare: 0.9,
});
export type StackTuning = typeof STACK;

export const INPUT_OFFSET = fixed({
  /** s before and after a hit's beginning that are compared. Evidence: no record. */
  beforeSeconds: 0.003,
  afterSeconds: 0.009,
  /** s that fade in and out. Evidence: no record. */
  fadeInSeconds: 0.001,
  fadeOutSeconds: 0.003,
  /** highest opposite peak over the peak below which a hit counts. Evidence: as in `delay.wave`; not tried here. */
  clearRival: 0.5,
  /** samples from the coarse peak: farther, the fine one is another peak. Evidence: no record. */
  refinedWithinSamples: 1,
  /** Hz, band that counts; whitening. Evidence: as in `hit.correlation`; not tried here. */
  lowHz: 100,
  highHz: 8000,
  beta: 0.5,
});
export type InputOffsetTuning = typeof INPUT_OFFSET;
