/** The plans of a reading without an arrival: what is missing, what to put right, what the sum says all the same. */
import type { Reading, Said } from '../../reading/reading';
import { whichShown } from './drums';
import { gapOf, moveOf } from './gap';
import { cautionsOf } from './notes';
import { pairKind } from './pairKinds';
import type { FixInputPlan, FollowingPlan, HitMorePlan, NoArrivalPlan, Note, PlanContext } from './planTypes';
import { lowEndOnly, reasonNow, reasonOf, statedOf } from './reasons';
import { lowEndVote, opposingVote, type SumVote } from './votes';

/** from so many hits on, "not yet" would be a false hope */
const HOPELESS_HITS = 16;

export function planHitMore(reading: Reading, context: PlanContext): HitMorePlan {
  const reason = reasonNow(statedOf(reading), context.ended ?? false);
  return {
    type: 'hit-more',
    action: 'hit-more',
    reason,
    sureness: { code: 'hit-more', reason, which: whichShown(reading) },
    notes: [],
    cautions: cautionsOf(pairKind(context.kind), false),
  };
}

export function planFixInput(reading: Reading, said: Said, context: PlanContext): FixInputPlan {
  const reason = reasonOf(statedOf(reading));
  return {
    type: 'fix-input',
    action: 'fix-input',
    reason,
    overloaded: said.state === 'overloaded',
    sureness: { code: 'no-reading', reason, which: whichShown(reading) },
    notes: [],
    cautions: cautionsOf(pairKind(context.kind), false),
  };
}

export function planFollowing(reading: Reading, said: Said, context: PlanContext): FollowingPlan {
  return {
    type: 'following',
    action: 'hit-more',
    reason: reasonOf(statedOf(reading)),
    toGo: toGoOf(reading, said, context),
    sureness: { code: 'provisional', which: whichShown(reading) },
    notes: [],
    cautions: cautionsOf(pairKind(context.kind), true),
  };
}

function toGoOf({ sampleRate }: Reading, said: Said, { kind: id, temperatureC }: PlanContext): FollowingPlan['toGo'] {
  const kind = pairKind(id);
  // a provisional reading has no polarity; the way to go doesn't need one
  const gap = gapOf({ ...said, polarity: said.polarity ?? 'same' }, sampleRate, temperatureC);
  if (gap === null || !kind.movable) return { code: 'not-known' };
  // on the way there is no accuracy to tell, only how far is left
  const moveCm = moveOf(kind, { ...gap, uncertaintyCm: gap.uncertaintyCm ?? 0 });
  if (moveCm !== null) return { code: 'move', moveCm };
  const near = Math.abs(gap.pathCm) < kind.toleranceCm;
  return near ? { code: 'stop', withinCm: kind.toleranceCm } : { code: 'not-known' };
}

/** The sum may answer all the same; a polarity of the arrival is never claimed. */
export function planNoArrival(reading: Reading, said: Said, context: PlanContext): NoArrivalPlan {
  const reason = reasonOf(statedOf(reading));
  const vote = lowEndVote(reading.sum);
  return {
    type: 'no-arrival',
    action: 'cannot-tell',
    reason,
    hopeless: lowEndOnly(said) !== null || reading.hits >= HOPELESS_HITS,
    vote,
    sureness: {
      code: 'cannot-tell',
      reason,
      // a measured answer without a number is of whatever drum
      which: said.state === 'measured' ? null : whichShown(reading),
    },
    notes: vote === null ? evenNotes(reading) : sumNotes(reading, vote),
    cautions: cautionsOf(pairKind(context.kind), false),
  };
}

function sumNotes({ sum }: Reading, vote: SumVote): Note[] {
  const other = opposingVote(sum, vote.prefers);
  return [...(other === null ? [] : [{ code: 'another-band-opposite' as const, ...other }]), { code: 'sum-of-now' }];
}

function evenNotes({ sum: { fuller, fullerLowHz: lowHz, fullerHighHz: highHz } }: Reading): Note[] {
  return fuller === 'either' && lowHz !== null && highHz !== null ? [{ code: 'octave-even', lowHz, highHz }] : [];
}
