/** When the witnesses don't agree: what makes a delay likely, and how likely it has to be. */
import { fixed } from './fixed';

export const LIKELY = fixed({
  /** s (2.7 cm of path) within which onsets of different hits agree; scatter of an onset, where it is the drum's. Evidence: a trial on real takes (0.08 ms). */
  withinSeconds: 0.00008,
  scatterSeconds: 0.00002,
  /** hits that have to show a candidate. Evidence: no record. */
  leastHits: 3,
  /** s (4.5 cm of path): neighbouring swings within that are one answer, whose uncertainty says so. Evidence: see `weights`. */
  sameSeconds: 0.00013,
  /** s within which another witness says the same, and from which it says something else. Evidence: no record. */
  nearSeconds: 0.0001,
  apartSeconds: 0.0003,
  /** opposite peak over peak under which a hit's correlation is heard. Evidence: no record. */
  clearRival: 0.5,
  /** hits from which it answers (by six, two readings of a real pair in noise were off by more than its tolerance), and its probability then; while it stands, less is enough. Evidence: of 311 such answers on simulated kits (seeds 10250–10449, not fitted on) 7 at 0.75 and 5 at 0.85 were off by more than 5 cm, none with the other polarity; at 0.6, five. */
  hits: 8,
  least: 0.8,
  stays: 0.7,
  /** the same of the drum that is asked for, where several are played: something else that comes first is what is to be expected then. Evidence: a real take’s groove (two of three pairs instead of one, none wrong). In drawn grooves with cymbals as loud as there, of all drums that are left open 27 are right, 4 within 5 cm and 9 worse from 0.6 on, 18, 3 and 2 from 0.8 on (`npm run bench -- likely`, weights fitted without them); most of those are kicks under a cymbal, and not asked for. */
  leastOfAsked: 0.6,
  staysOfAsked: 0.5,
  /** nats by which it is likelier that the newer hits show it less than the older ones: something moved; more while it stands, for a hi-hat nobody moved came to 3.8. Evidence: as above, 18 off by more than 5 cm without, 7 with it, of 324 and 293. */
  changed: 2.5,
  changedWhileStanding: 4,
  /** s (2 cm of path) of uncertainty beside how far the likely candidates lie apart. Evidence: 293 such answers on those kits: the truth within in 90.4 %. */
  placeSeconds: 0.000058,
  /** an answer that a drum has had before */
  known: {
    /** newest hits in which it is looked for. Evidence: as below. */
    newestHits: 8,
    /** nats of likelihood ratio against chance (1 in 400) from which they show it: two of four hits that do so closely. Evidence: as below, and a real groove after the same drums one by one, where B stays and where it is put 4 cm back (`npm run bench -- moves`). */
    leastNats: 6,
    /** s (34 cm of path) within which no other delay may be shown so well, and nats by which not. Evidence: `npm run bench -- likely`, drawn grooves, where the rest leaves it open: what is true is found again at 40 of 143 looks, what was 4 or 6 cm else at 11 of 572, what was 15 cm else or inverted never. */
    rivalSeconds: 0.001,
    rivalNats: 2,
  },
  /** the low end's first pushes, whatever came before them: a kick under a hi-hat that comes with each of its strokes */
  deep: {
    /** hits and share of the hits that have to agree, to within `delay.mode.withinSeconds`. Evidence: see below. */
    hits: 4,
    share: 0.4,
    /** s (20 cm of path) from which they speak of another source. Evidence: 292 drawn grooves (seeds 10000–12399): of the readings by likelihood 250 of 487 that were far off are so far from them and 24 of 4600 that were right; from 14 cm on, 27 and 57 more. */
    apartSeconds: 0.00058,
    /** where they agree to within so much (half of them, s; 1 cm of path): the hits and the share that it takes, and what is then another source, s (7 cm), or the other polarity. Evidence: 164 drawn grooves (seeds 12400–13751): of 137 readings by likelihood or by the hits' correlation that were far off 118 are so far from there, of 2088 others 29; nothing of the real recordings, their variants and the takes. */
    close: { spreadSeconds: 0.00003, hits: 3, share: 0.6, apartSeconds: 0.0002 },
  },
  /**
   * A multinomial logit over the candidates and "none of them". Fitted on simulated kits (seeds 10000–10249, tidier grooves than today's) and the real recordings, each with its variants; `npm run bench -- likely` fits them anew: no better.
   * By cross-validation it answers, of what the witnesses leave open there, half at 0.8, none off by more than 5 cm or inverted.
   */
  weights: {
    /** of a candidate against "none" */
    bias: -3.455,
    /** ten nats of likelihood ratio against chance, up to six */
    ratio: 0.252,
    /** share of the hits that show it */
    share: 0.593,
    /** height of the attacks' curve there, of its highest */
    height: 2.878,
    /** 40 µs of median deviation */
    spread: -0.739,
    /** share of the hits whose correlation says so, and whose says otherwise */
    wave: 2.35,
    otherWave: -0.821,
    /** share of the hits whose low end pushes there */
    low: 0.937,
    /** the hits' average says so (+1), or otherwise (−1) */
    average: 1.069,
    /** trust of the best fit, if it lies there; negative if elsewhere */
    fit: 1.601,
    /** share of the hits of which it is the very first push */
    first: 2.498,
    /** each doubling of the hits, from four */
    hits: 0.389,
  },
});
export type LikelyTuning = typeof LIKELY;
