/** From everything the engine knows to one state and one reason. */

import { REASONS, STATES } from '../../reading/frame';
import type { ReadingReason, ReadingState } from '../../reading/reading';
import type { Decision } from '../delay/decision';
import { HITS_NEEDED } from '../delay/pool';
import type { Kit } from '../drumAnswers';
import type { HitStore } from '../hit/hitStore';
import type { LevelMeter } from '../input/levels';

const state = (s: ReadingState): number => STATES.indexOf(s);
const reason = (r: ReadingReason): number => REASONS.indexOf(r);

const MEASURED = state('measured');
const LISTENING = state('listening');
const FOLLOWING = state('following');
const UNCLEAR = state('unclear');
const NO_SIGNAL = state('no-signal');
const SAME_SIGNAL = state('same-signal');
const OVERLOADED = state('overloaded');
const R = {
  agreed: reason('agreed'),
  nothing: reason('nothing-yet'),
  few: reason('too-few-hits'),
  aSilent: reason('a-silent'),
  bSilent: reason('b-silent'),
  bothSilent: reason('both-silent'),
  noData: reason('no-data'),
  gainCopy: reason('gain-copy'),
  identical: reason('bit-identical'),
  clippedA: reason('clipped-a'),
  clippedB: reason('clipped-b'),
  disagree: reason('hits-disagree'),
  witnesses: reason('witnesses-disagree'),
  hidden: reason('arrival-hidden'),
  lowEndA: reason('low-end-only-a'),
  lowEndB: reason('low-end-only-b'),
  drums: reason('several-drums'),
  moving: reason('moving'),
  moved: reason('moved'),
  noCommon: reason('no-common-signal'),
};

/** zeros on both inputs for this long are no data, not silence */
const GAP_SECONDS = 0.02;
const IDENTICAL_SECONDS = 0.2;
const START_SECONDS = 2;
const CLIPPED_HITS = 2;
const ONE_SIDED_HITS = 3;
const DRUM_HITS_SEEN = 8;

export class Verdict {
  state = LISTENING;
  reason = R.nothing;
  measured = false;
  following = false;
  /** one source on both inputs is what is wanted: the input offset is being measured */
  copyWanted = false;
  /** no more will come: set by the engine */
  ended = false;
  gap = false;
  bitIdentical = false;

  set(s: number, r: number): Verdict {
    this.state = s;
    this.reason = r;
    return this;
  }
}

interface Known {
  store: HitStore;
  kit: Kit;
  levelA: LevelMeter;
  levelB: LevelMeter;
}

/** Real-time safe: yes. @param frames since start or restart */
export function judge(
  v: Verdict,
  k: Known,
  frames: number,
  zeroRun: number,
  equalRun: number,
  sampleRate: number,
): Verdict {
  v.gap = zeroRun >= GAP_SECONDS * sampleRate;
  v.bitIdentical = equalRun >= IDENTICAL_SECONDS * sampleRate;
  v.measured = false;
  v.following = false;
  const { kit, store, levelA, levelB } = k;
  if (v.bitIdentical) return v.set(SAME_SIGNAL, R.identical);
  if (kit.shown.sum.sameSignal && !v.copyWanted) return v.set(SAME_SIGNAL, R.gainCopy);
  if (store.count === 0) {
    // a short file has said all it will
    if (frames < START_SECONDS * sampleRate && !v.ended) return v.set(LISTENING, R.nothing);
    const silentA = levelA.silent || (v.ended && !levelA.heard);
    const silentB = levelB.silent || (v.ended && !levelB.heard);
    if (silentA && silentB) return v.set(NO_SIGNAL, R.bothSilent);
    if (silentA) return v.set(NO_SIGNAL, R.aSilent);
    if (silentB) return v.set(NO_SIGNAL, R.bSilent);
    return v.set(LISTENING, R.nothing);
  }
  if (kit.length >= CLIPPED_HITS && 2 * Math.max(kit.clippedA, kit.clippedB) > kit.length)
    return v.set(OVERLOADED, kit.clippedA >= kit.clippedB ? R.clippedA : R.clippedB);
  const oneSided = kit.onlyA + kit.onlyB;
  if (oneSided >= ONE_SIDED_HITS && 2 * oneSided > kit.length) {
    if (kit.onlyB === 0) return v.set(NO_SIGNAL, R.bSilent);
    if (kit.onlyA === 0) return v.set(NO_SIGNAL, R.aSilent);
    return v.set(UNCLEAR, R.noCommon);
  }
  return judgeDrum(v, kit.shown.decision, kit.length);
}

/** What is known of one drum. Real-time safe: yes. @param heard newest hits of all drums */
export function judgeDrum(v: Verdict, decision: Decision, heard: number): Verdict {
  v.measured = false;
  v.following = false;
  if (decision.lowEndA) return v.set(UNCLEAR, R.lowEndA);
  if (decision.lowEndB) return v.set(UNCLEAR, R.lowEndB);
  if (decision.following) {
    v.following = true;
    return v.set(FOLLOWING, R.moving);
  }
  if (decision.moved) return v.set(LISTENING, R.moved);
  if (decision.drumHits < HITS_NEEDED)
    return heard >= DRUM_HITS_SEEN ? v.set(UNCLEAR, R.drums) : v.set(LISTENING, R.few);
  if (decision.contradiction) return v.set(UNCLEAR, R.witnesses);
  if (decision.sign !== 0) {
    v.measured = true;
    return v.set(MEASURED, R.agreed);
  }
  if (2 * decision.usable < decision.drumHits || decision.hidden) return v.set(UNCLEAR, R.hidden);
  return v.set(UNCLEAR, R.disagree);
}
