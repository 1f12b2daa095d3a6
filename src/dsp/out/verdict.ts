/** From everything the engine knows to one state and one reason. */

import { REASON, STATE } from '../../reading/codes';
import type { Decision } from '../delay/decision';
import { TUNING, type Tuning } from '../tuning';
import type { VerdictSources } from './sources';

export class Verdict {
  state = STATE.listening;
  reason = REASON['nothing-yet'];
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

/** Real-time safe: yes. @param frames since start or restart */
export function judge(
  v: Verdict,
  k: VerdictSources,
  frames: number,
  zeroRun: number,
  equalRun: number,
  sampleRate: number,
  tuning: Tuning = TUNING,
): Verdict {
  const { gapSeconds, identicalSeconds, startSeconds, clippedHits, oneSidedHits } = tuning.verdict;
  v.gap = zeroRun >= gapSeconds * sampleRate;
  v.bitIdentical = equalRun >= identicalSeconds * sampleRate;
  v.measured = false;
  v.following = false;
  const { heard, store, levelA, levelB } = k;
  if (v.bitIdentical) return v.set(STATE['same-signal'], REASON['bit-identical']);
  if (heard.shown.sum.sameSignal && !v.copyWanted) return v.set(STATE['same-signal'], REASON['gain-copy']);
  if (store.count === 0) {
    // a short file has said all it will
    if (frames < startSeconds * sampleRate && !v.ended) return v.set(STATE.listening, REASON['nothing-yet']);
    const silentA = levelA.silent || (v.ended && !levelA.heard);
    const silentB = levelB.silent || (v.ended && !levelB.heard);
    if (silentA && silentB) return v.set(STATE['no-signal'], REASON['both-silent']);
    if (silentA) return v.set(STATE['no-signal'], REASON['a-silent']);
    if (silentB) return v.set(STATE['no-signal'], REASON['b-silent']);
    return v.set(STATE.listening, REASON['nothing-yet']);
  }
  if (heard.length >= clippedHits && 2 * Math.max(heard.clippedA, heard.clippedB) > heard.length)
    return v.set(STATE.overloaded, heard.clippedA >= heard.clippedB ? REASON['clipped-a'] : REASON['clipped-b']);
  const oneSided = heard.onlyA + heard.onlyB;
  if (oneSided >= oneSidedHits && 2 * oneSided > heard.length && !heldAtEnd(v, k, tuning)) {
    if (heard.onlyB === 0) return v.set(STATE['no-signal'], REASON['b-silent']);
    if (heard.onlyA === 0) return v.set(STATE['no-signal'], REASON['a-silent']);
    return v.set(STATE.unclear, REASON['no-common-signal']);
  }
  if (heard.open) return v.set(STATE.unclear, REASON['which-drum']);
  return judgeDrum(v, heard.shown.decision, heard.length, tuning, heard.sorter.parted(heard.shownAt));
}

/**
 * A recording has ended, and both have heard the drum: an input that fell silent towards its end takes nothing back. Live it
 * may be a cable. What was never heard on both sides holds nothing.
 */
function heldAtEnd(v: Verdict, { heard }: VerdictSources, tuning: Tuning): boolean {
  if (!v.ended) return false;
  const { decision } = heard.shown;
  const { measured } = judgeDrum(v, decision, heard.length, tuning);
  v.measured = false;
  v.following = false;
  return measured || ((heard.onlyA === 0 || heard.onlyB === 0) && decision.drumHits >= tuning.delay.hitsNeeded);
}

/**
 * What is known of one drum. Real-time safe: yes.
 * @param heard newest hits of all drums
 * @param parted it is one of two that were taken for one drum: to count its hits from the start would hide that
 */
export function judgeDrum(
  v: Verdict,
  decision: Decision,
  heard: number,
  tuning: Tuning = TUNING,
  parted = false,
): Verdict {
  v.measured = false;
  v.following = false;
  if (decision.lowEndA) return v.set(STATE.unclear, REASON['lows-only-a']);
  if (decision.lowEndB) return v.set(STATE.unclear, REASON['lows-only-b']);
  if (decision.following) {
    v.following = true;
    return v.set(STATE.following, REASON.moving);
  }
  if (decision.moved) return v.set(STATE.listening, REASON.moved);
  if (decision.drumHits < tuning.delay.hitsNeeded)
    return parted || heard >= tuning.verdict.drumHitsSeen
      ? v.set(STATE.unclear, REASON['several-drums'])
      : v.set(STATE.listening, REASON['too-few-hits']);
  if (decision.contradiction) return v.set(STATE.unclear, REASON['push-and-shape-disagree']);
  if (decision.sign !== 0) {
    v.measured = true;
    return v.set(STATE.measured, REASON.agreed);
  }
  if (2 * decision.usable < decision.drumHits || decision.hidden) return v.set(STATE.unclear, REASON['arrival-hidden']);
  return v.set(STATE.unclear, REASON['hits-disagree']);
}
