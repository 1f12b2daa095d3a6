/** One hit: where it begins, its first pushes, its correlation, its spectra. */
import { QUIET_PEAK } from '../../reading/limits';
import { fixed } from './fixed';

export const HIT = fixed({
  /** s (3.8 m), the near reach: every hit is read within it, and beyond it only where it shows nothing there. Evidence: first trials looked within it; with frames for 34 ms, two of eleven real files and one weak one were lost to reflections. */
  nearReachSeconds: 0.011,
  /** s from its edge in which it depends on where the trigger falls (to within a block) whether a delay is seen. Evidence: room cases of the tuning seeds. */
  nearEdgeSeconds: 0.001,
  detector: {
    /** s of a block, whose peak is looked at: a hit is found to within it. Evidence: first trials. */
    blockSeconds: 0.00075,
    /** dB/s by which the held peak falls (6 dB in 8 s). Evidence: first trials. */
    heldDecayDbPerSecond: 6 / 8,
    /** share of the held peak that a hit exceeds. Evidence: first trials. */
    shareOfHeld: 0.06,
    /** share of full scale (−80 dBFS) that a hit exceeds. Evidence: first trials. */
    leastPeak: QUIET_PEAK,
    /** times the largest of the blocks before that a hit exceeds, and how many blocks those are (15 ms). Evidence: first trials. */
    rise: 3,
    blocksBefore: 20,
    /** s after a hit in which no second one begins. Evidence: first trials. */
    refractorySeconds: 0.08,
    /** s at the start of a stream in which no hit is looked for: nothing is known of the noise yet. Evidence: first trials. */
    blindSeconds: 0.06,
    /** s: a rise so soon after a hit's beginning is still that hit (the other channel, the drum's body); later ones are too soon to read. Evidence: no record. */
    sameHitSeconds: 0.04,
  },
  arrival: {
    /** s beyond the largest lag in which the hit's peak is looked for. Evidence: first trials. */
    peakAfterSeconds: 0.015,
    /** s before the earliest arrival in which noise is looked at. Evidence: first trials. */
    noiseSeconds: 0.015,
    /** share of the peak over which a first half-wave rises. Evidence: first trials; a threshold of 10 % missed soft first half-waves. */
    shareOfPeak: 0.04,
    /** times the largest noise over which it rises. Evidence: first trials. */
    noiseFactor: 3,
    /** share of full scale: with a lower peak no push is looked for. Shared with the words. Evidence: first trials. */
    leastPeak: QUIET_PEAK,
    /** share of the peak: with a higher threshold no push is looked for. Evidence: first trials. */
    mostThreshold: 0.5,
    /** times the largest noise below which the foot isn't looked for. Evidence: first trials. */
    footNoiseFactor: 1.5,
    /** first half-wave over the largest value before it, from which an arrival counts. Evidence: first trials. */
    usableQuality: 8,
    /** what makes a half-wave a first push, in a single hit and in an average */
    push: {
      /** s that a half-wave lasts at least: shorter ones are clicks. Evidence: first trials. */
      leastSeconds: 0.00009,
      /** share of the half-wave's summit at which its foot, the arrival, lies. Evidence: first trials. */
      footShare: 0.1,
      /** s before the foot, from … to, whose largest value the push is set against: its quality. Evidence: first trials. */
      cleanFromSeconds: 0.002,
      cleanToSeconds: 0.00015,
    },
  },
  onset: {
    /** s before the other channel's beginning, and after the reach, that are looked at. Evidence: a trial on real takes. */
    beforeSeconds: 0.004,
    peakAfterSeconds: 0.002,
    /** shares of the peak over which a first half-wave rises. Evidence: a trial on real takes. */
    shares: [0.04, 0.08, 0.15, 0.25, 0.4, 0.6],
    /** share of full scale: with a lower peak no push is looked for. */
    leastPeak: QUIET_PEAK,
    /** s that a half-wave lasts at least; share of its summit at which its foot lies: as in `arrival`. */
    leastSeconds: 0.00009,
    footShare: 0.1,
    /** s within which two are one. */
    sameSeconds: 0.00004,
  },
  lowPush: {
    /** Hz, second-order low-pass: a hi-hat or a cymbal doesn't reach below. Evidence: no record. */
    cornerHz: 500,
    /** s before the earliest push (its second half: noise) and after the latest that are looked at. Evidence: no record. */
    beforeSeconds: 0.015,
    afterSeconds: 0.015,
    /** share of the peak, and times the noise, over which a first half-wave rises. Evidence: no record. */
    shareOfPeak: 0.12,
    noiseFactor: 3,
    /** share of the peak: with a higher threshold no push is looked for. Evidence: as in `arrival`; not tried here. */
    mostThreshold: 0.5,
    /** share of the summit at which the rise is timed: the low end rises slowly, half-way up is steepest. Evidence: no record. */
    level: 0.5,
    /** s before the half-way point, up to the summit, in which something high is looked for. Evidence: no record. */
    highSeconds: 0.003,
    /** what lies above 2 kHz there, over the push, below which the drum was alone. Evidence: real recordings of single hits: up to 1.3 where a drum was alone, from 4.6 where a cymbal came first. */
    alone: 2,
    /** s by which the whole signal may begin before the half-way point; sooner, a softer push came first. Evidence: no record. */
    earlierSeconds: 0.001,
  },
  heard: {
    /** times the noise before, and share of full scale, over which a channel has heard the hit. Evidence: no record. */
    noiseFactor: 3,
    leastPeak: QUIET_PEAK,
    /** s after the arrival in which a clip counts: what the delay is read from. Evidence: no record. */
    clipAfterSeconds: 0.014,
  },
  correlation: {
    /** s before the trigger, and beyond the largest lag after it, that are correlated. Evidence: first trials. */
    beforeSeconds: 0.004,
    afterLagSeconds: 0.003,
    /** s that fade in; share of the stretch that fades out. Evidence: first trials. */
    fadeInSeconds: 0.001,
    fadeOutShare: 0.3,
    /** Hz, band that counts. Evidence: first trials; full whitening over all bins lifts the noise floor's. */
    lowHz: 100,
    highHz: 8000,
    /** whitening, 0 plain … 1 full. Evidence: first trials, attack alone: 11 of 21 pairs right at 0.5, 8 plain; 7 at 1 over the whole hit. */
    beta: 0.5,
  },
  tilt: {
    /** Hz, low end over attack: how dull a microphone is. Evidence: first trials (there with a Hann window). */
    lowFromHz: 40,
    lowToHz: 250,
    highFromHz: 2000,
    highToHz: 12000,
  },
  fingerprint: {
    /** Hz, edges of the bands by whose levels drums are told apart; the first five are the lows. Evidence: 48 hits of six drums in every pair of seven microphones (a real take): hits of one drum lie closer than those of two in 99.3 % of all comparisons, with four bands (40, 150, 500, 2000, 10000) in 98.6 %. */
    edgesHz: [40, 80, 130, 200, 320, 500, 1000, 2500, 10000],
    /** s before and after the trigger that they are taken from. Evidence: a real take's groove, every pair of seven microphones, hi-hat up to 14 ms before or after: of the hits of one drum and those of two, the first lie closer in 93 % of all comparisons (84 % with 14 ms after, fading from 8 on), struck one after the other in 99.9 % (99.2 %). Nothing is waited for: the near reach's first arrivals need 26 ms. */
    beforeSeconds: 0.004,
    afterSeconds: 0.026,
    /** s that fade in and out. Evidence: as above, 9 ms: no better. */
    fadeInSeconds: 0.001,
    fadeOutSeconds: 0.0045,
  },
  spectra: {
    /** s before and after the arrival that the sum is made from. Evidence: gains of inverts and delays told from 0.1 s miss those of recordings really summed up to 0.2 s after the stroke by more than 0.3 dB on 8 % of 360 (real files and takes), from 0.2 s on 0.3 %; planGain: 0.2, 0.19, 0.18 s miss by at most 0.007, 0.061, 0.098 dB where the coherence carries it (bar 0.3), by 0.73, 0.85, 0.97 dB elsewhere (bar 1). 0.19 s: the new sum is on the screen within a quarter of a second. */
    beforeSeconds: 0.005,
    afterSeconds: 0.19,
    /** s of noise before it. Evidence: no record. */
    noiseSeconds: 0.105,
    /** s that fade in and out. Evidence: as in `afterSeconds`. */
    fadeInSeconds: 0.003,
    fadeOutSeconds: 0.02,
    /** s of the stream to a small piece of this work: a piece took 0.02–0.06 ms (Node, best of 7 runs), so that a step's share stays below 15 %. Evidence: `npm run bench -- engine`. */
    pieceSeconds: 0.00045,
    /** Hz from which on a rate is lowered to this, or above it, by halves. Evidence: the lowest rate that carries 20 kHz. */
    leastRateHz: 44100,
    /** Hz, the whole band. Evidence: the range of hearing. */
    lowHz: 20,
    highHz: 20000,
  },
  waves: {
    /** s kept of a hit before the trigger and beyond the largest lag; s of noise at its start. What the average of the hits is made from. Evidence: no record. */
    beforeSeconds: 0.016,
    afterSeconds: 0.006,
    quietSeconds: 0.008,
  },
});
export type DetectorTuning = typeof HIT.detector;
export type ArrivalTuning = typeof HIT.arrival;
export type PushTuning = typeof HIT.arrival.push;
export type OnsetTuning = typeof HIT.onset;
export type LowPushTuning = typeof HIT.lowPush;
export type HeardTuning = typeof HIT.heard;
export type CorrelationTuning = typeof HIT.correlation;
export type TiltTuning = typeof HIT.tilt;
export type FingerprintTuning = typeof HIT.fingerprint;
export type SpectraTuning = typeof HIT.spectra;
export type WavesTuning = typeof HIT.waves;
