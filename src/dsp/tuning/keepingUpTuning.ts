/** The stream's time against the clock's. */
import { fixed } from './fixed';

export const KEEPING_UP = fixed({
  /** ms of the clock whose least lateness is looked at together, and how many of these an envelope is the least of (a second). Evidence: a callback of 2048 frames at 44.1 kHz comes every 46 ms, up to 30 ms late: tests/dsp/input. */
  slotMs: 250,
  envelopeSlots: 4,
  /** ms by which the envelope is lifted at least: a block of 128 frames at 48 kHz is 2.7. Evidence: follows; the clock is good to 1 ms, its least over a second to a third of that. */
  leastLossMs: 1.8,
  /** times its scatter by which it is lifted at least. Evidence: tests/dsp/input: hours of 30 ms of jitter. */
  scatters: 20,
  /** ms by which it is lifted at most until it is a loss, whatever the scatter: a stream that falls behind scatters, too. Evidence: no record. */
  mostLossMs: 100,
  /** ms, scatter before any is known, and as how many slots it counts. Evidence: as above, the first seconds. */
  firstScatterMs: 1,
  firstScatterSlots: 4,
  /** share of a slot's distance by which the envelope is followed (2 s), and its scatter (10 s). Evidence: 500 ppm lag by 1 ms. */
  followShare: 0.125,
  scatterShare: 0.025,
  /** slots in which losses add up (4 s), and how many slots with a loss mean that it goes on. Evidence: no record. */
  lossSlots: 16,
  losses: 3,
  /** share of what was found lost that the envelope has kept: jitter that is taken for losses falls back. Evidence: no record. */
  keptShare: 0.5,
  /** share of the time by which a stream that nothing is lost from, a file's, falls behind until it is said. A choice: it stutters, and its readings are right all the same. */
  behindShare: 0.25,
  /** slots without a loss until it is over (4 s). Evidence: no record. */
  overSlots: 16,
});
export type KeepingUpTuning = typeof KEEPING_UP;
