/** Inputs: filters, levels, clips, the running correlation. */
import { QUIET_PEAK } from '../../reading/limits';
import { fixed } from './fixed';

export const INPUT = fixed({
  filters: {
    /** Hz, second-order high-pass: what is below is DC and drift, no signal. Evidence: no record. */
    dcCornerHz: 12,
    /** Hz, first-order causal high-pass of what first arrivals are picked on: causal keeps the sign of a first motion. Evidence: first trials. */
    pickCornerHz: 100,
    /** Hz, second-order high-pass of what single hits are correlated on. Evidence: first trials. */
    waveCornerHz: 80,
    /** Hz, first-order high-pass of what attacks are laid on each other by: 6 dB an octave below it, about what whitening would do to a drum. Evidence: no record. */
    attackCornerHz: 2000,
  },
  level: {
    /** s of the newest peak and RMS. Evidence: no record; no standard asks for it. */
    windowSeconds: 0.4,
    /** share of full scale (−80 dBFS): an input that stays below is silent. Shared with the words. Evidence: no record. */
    silentPeak: QUIET_PEAK,
    /** s below it until an input is silent: longer than the pause between two hits. Evidence: no record. */
    silentSeconds: 2,
  },
  clip: {
    /** share of full scale from which a sample may be clipped: just below 16 bits' 32767/32768. Evidence: follows. */
    fullScale: 0.9999,
    /** samples in a row at full scale that are a clip: one or two may be a peak that just fits. Evidence: no record. */
    runSamples: 3,
  },
  step: {
    /** s before and after a step whose slopes it is set against. Evidence: as below. */
    stretchSeconds: 0.0005,
    /** times the largest slope before it, and after it, that a step is in both channels. Evidence: no step in the real recordings and the examples from 6 and 1.2 on; of blocks dropped from made-up hits by a slow thread, most of those that begin a hit. */
    overBefore: 8,
    overAfter: 1.5,
    /** share of full scale (one step of 16 bits) that a slope before it counts at least. Evidence: follows. */
    least: 1 / 32768,
  },
  gap: {
    /** s before and after a hit's trigger that are used, for the noise and the sum: a gap in them voids it. Evidence: follows from the stretches looked at. */
    beforeSeconds: 0.125,
    afterSeconds: 0.215,
    /** s that the trace shows a gap at least. Evidence: frames come every 0.025 s. */
    shownSeconds: 0.1,
  },
  trace: {
    /** standard deviation of the correlation of unrelated inputs: sets how long a band integrates, T = 1/(2·B·scatter²). A choice: no standard fixes it. */
    scatter: 0.1,
    /** s, least integration time. Evidence: a choice of the project, no standard fixes it. */
    shortestSeconds: 0.1,
    /** dB over the noise between hits from which there is a value: hum and wash in a pause are no reading. Evidence: a choice; no trial on record. */
    gateDb: 10,
    /** power, full scale 1 (−100 dBFS): below it nothing counts as signal. Evidence: no record. */
    floorPower: 1e-10,
    /** s of a stretch whose quietest moment is kept, and how many such stretches: the noise between hits is the least of them. Evidence: no record. */
    floorSlotSeconds: 0.5,
    floorSlots: 16,
  },
});
export type InputTuning = typeof INPUT;
export type FilterTuning = typeof INPUT.filters;
export type LevelTuning = typeof INPUT.level;
export type ClipTuning = typeof INPUT.clip;
export type StepTuning = typeof INPUT.step;
export type GapTuning = typeof INPUT.gap;
export type TraceTuning = typeof INPUT.trace;
