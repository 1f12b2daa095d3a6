/** The plans of a reading that doesn't answer: what is missing, what to put right. */
import type { Reading, Said } from '../../reading/reading';
import { whichShown } from './drums';
import { gapOf, moveOf } from './gap';
import { cautionsOf } from './notes';
import { pairKind } from './pairKinds';
import type { FixInputPlan, FollowingPlan, HitMorePlan, NoAnswerPlan, PlanContext } from './planTypes';
import { reasonNow, reasonOf, statedOf } from './reasons';
import { isHopeless } from './withAnswer';

export function planHitMore(reading: Reading, context: PlanContext): HitMorePlan {
  const reason = reasonNow(statedOf(reading), context.ended ?? false);
  return {
    type: 'hit-more',
    action: 'hit-more',
    reason,
    sureness: { code: 'hit-more', reason, which: whichShown(reading) },
    notes: [],
    cautions: cautionsOf(pairKind(context.kind), { reason }),
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
    cautions: cautionsOf(pairKind(context.kind), { reason }),
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
    cautions: cautionsOf(pairKind(context.kind), { moves: true }),
  };
}

/** How far B is from its place at the newest hit. */
export function toGoOf(
  { sampleRate }: Pick<Reading, 'sampleRate'>,
  said: Said,
  { kind: id, temperatureC }: Pick<PlanContext, 'kind' | 'temperatureC'>,
): FollowingPlan['toGo'] {
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

export function planNoAnswer(reading: Reading, said: Said, context: PlanContext): NoAnswerPlan {
  const reason = reasonOf(statedOf(reading));
  return {
    type: 'no-answer',
    action: 'cannot-tell',
    reason,
    hopeless: isHopeless(reading, said),
    sureness: { code: 'cannot-tell', reason, which: said.state === 'measured' ? null : whichShown(reading) },
    notes: reason.code === 'which-drum' ? [{ code: 'several-heard' }] : [],
    cautions: cautionsOf(pairKind(context.kind), { reason }),
  };
}
