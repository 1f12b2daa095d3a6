/** When first arrivals that change are a microphone on the move. */
import { fixed } from './fixed';

export const MOTION = fixed({
  /** hits before the newest that make a base to move from, and the newest of them that count. Evidence: no record. */
  baseHits: 4,
  baseNewestHits: 8,
  /** hits of the base from which it shows how far a drummer scatters; with fewer, times the deviations by which two new ones must lie away. Evidence: `npm run bench -- moves`: 7 of 12 false moves on 3102 hits of real recordings were two hits after four. */
  wideBaseHits: 6,
  fewBaseFactor: 1.5,
  /** s (2.7 cm of path) of the base's middle within which, and share of them with which, its hits say one thing: fewer than four new ones are no move from hits that don't. Evidence: as in `mode` and `pick`; real recordings and simulated kits in which nothing moves. */
  baseWithinSeconds: 0.00008,
  baseShare: 0.75,
  /** s (0.7, 1.2 cm), deviation of the base up to which two, three of the other polarity are a turn: in coarser arrivals a handful turn by chance. Evidence: a hi-hat nobody moved, 46 µs; drums read well scatter by 3–20 µs. */
  turnScatterSeconds: [0.00002, 0.000035],
  /** s (0.9 cm of path) beyond which the newest must all lie, on one side of the base. Evidence: raised from 0.7 cm; why isn't on record. */
  awaySeconds: 0.000026,
  /** deviations beyond which the newest two, three, or four must all lie as well. Evidence: three and four came in so that a knock is seen in a wide scatter; no figures on record. */
  awayScatters: [4, 2.8, 2.3],
  /** s (0.4 cm of path), and deviations, by which one hit lies beyond the other where they climb. Evidence: no record. */
  climbSeconds: 0.000012,
  climbScatters: 2,
  /** hits that agree, to within so many deviations, and end a move. Evidence: no record. */
  agreeingHits: 4,
  agreeingScatters: 3,
  /** deviations that the climb of the newest must exceed, or the move has ended in a wider scatter. Evidence: no record. */
  restingScatters: 2.5,
  /** a slow drift: s (2.1 cm of path), and deviations, of the whole line's climb. Evidence: as in `wideBaseHits`: a drummer's wander over the head climbs by 1.4 cm, 5 of the 12 came so. */
  driftSeconds: 0.00006,
  driftScatters: 4.5,
  /** share of all pairs of hits that go one way. Evidence: lowered from 0.9, so that a drift is seen where a few hits go back; no figures on record. */
  driftShare: 0.84,
  /** hits that the line is laid through at most and at least. Evidence: simulated kits: line fits on 4–5 hits invent motion; the least was raised from 5 to 6. */
  driftHits: 8,
  driftLeastHits: 6,
  /** share of that climb which the line shows without its newest hit. Evidence: real recordings in which nothing moves: two false moves less in one of 15; of 40 moves of the tuning seeds two are seen a hit later (all rules of what proves a move together). */
  driftBeforeShare: 0.6,
  /** times the climb that the fewest hits must show: they climb by chance now and then. Evidence: no record. */
  fewHitsFactor: 2.5,
  /** hits that a line is laid through while a microphone is on the move. Evidence: no record. */
  followedHits: 5,
  /** s, least deviation that hits are said to have. Evidence: no record. */
  leastScatterSeconds: 0.000003,
  /** deviations at which the second largest distance from the base is taken to lie (of eight hits). Evidence: no record. */
  secondLargestDeviations: 1.5,
});
export type MotionTuning = typeof MOTION;
