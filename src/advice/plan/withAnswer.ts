/** The plan of a reading that answers: whole alternatives, the one to take, and what stands beside it. */
import type { Reading, Said } from '../../reading/reading';
import { roundPathCm } from '../../reading/rounding';
import { type Action, type Alternative, alternativesOf, isSame, recommendedOf, type Timing } from './alternatives';
import { whichShown } from './drums';
import { canMove, conflicts, type Gap, knownCm, moveOf, pathSaidCm, stillNear, surelyNear } from './gap';
import { cautionsOf, notesOf } from './notes';
import { type PairKind, pairKind } from './pairKinds';
import type { AdviceAction, AnswerPlan, Distance, FarPlan, PlanContext, Sureness } from './planTypes';
import { agreeingOf, lowEndOnly, reasonOf, statedOf } from './reasons';
import { lowOctaveVote } from './votes';

/** from so many hits on, "not yet" would be a false hope */
export const HOPELESS_HITS = 12;

/** @param gap null: no arrival, the sum alone answers; @param timings at least the present */
export function planAnswer(
  reading: Reading,
  said: Said,
  gap: Gap | null,
  timings: readonly Timing[],
  context: PlanContext,
): AnswerPlan {
  const kind = pairKind(context.kind);
  const all = alternativesOf(timings);
  const best = recommendedOf(all, context.standing ?? null);
  const { chosen = null } = context;
  const picked = chosen === null ? undefined : all.find((one) => isSame(one, chosen));
  const recommended = picked ?? best;
  const { moveCm } = recommended;
  const flip = recommended.invertB !== context.invertB;
  const together = gap !== null && canMove(kind, gap.pathCm);
  const vote = lowOctaveVote(reading.sum);
  const conflict = gap !== null && conflicts(vote, gap) ? vote : null;
  const missing = gap === null ? { reason: reasonOf(statedOf(reading)), hopeless: isHopeless(reading, said) } : null;
  const { fullerLowHz, fullerHighHz } = reading.sum;
  const notes = notesOf({
    best,
    reading,
    gap,
    context,
    kind,
    together,
    recommended,
    alternatives: all,
    flip,
    conflict,
    missing,
  });
  return {
    type: 'answer',
    action: actionOf(recommended),
    gap,
    missing,
    alternatives: [recommended, ...all.filter((one) => one !== recommended)],
    recommended,
    chosen: picked !== undefined,
    flip,
    lowOctaveHz: fullerLowHz === null || fullerHighHz === null ? null : [fullerLowHz, fullerHighHz],
    // the meter's own invert, where it is on, comes off in any case
    fine:
      actionOf(recommended) === 'leave' &&
      !context.invertB &&
      gap !== null &&
      gap.polarity === 'same' &&
      (context.standing?.fine ? stillNear(kind, gap) : surelyNear(kind, gap)) &&
      conflict === null,
    distance: gap === null || moveCm !== null ? null : distanceOf(kind, gap, together),
    forDrum: moveCm === null ? null : drumOfMove(reading, kind),
    sureness: gap === null ? noTiming(reading, said) : agreed(reading, said, gap),
    notes,
    cautions: cautionsOf(kind, {
      moves: moveCm !== null,
      patches: notes.some(({ code }) => code === 'unusual-polarity'),
      reason: missing?.reason ?? null,
    }),
  };
}

/** More hits won't help: as many as can be asked for were made, or a channel has the low end only. */
export const isHopeless = (reading: Reading, said: Said): boolean =>
  lowEndOnly(said) !== null || reading.hits >= HOPELESS_HITS;

export function actionOf({ invertB, delayMs, moveCm }: Action): AdviceAction {
  if (moveCm !== null) return invertB ? 'invert-and-move' : 'move';
  if (delayMs !== null) return invertB ? 'invert-and-delay' : 'delay-later';
  return invertB ? 'invert' : 'leave';
}

/** How well the distance is known, where no move is advised; null: well enough for a move, which isn't worth it. */
function distanceOf(kind: PairKind, gap: Gap, together: boolean): Distance | null {
  const known = knownCm(gap);
  if (surelyNear(kind, gap)) return { code: 'equal', withinCm: Math.max(Math.abs(gap.pathCm), known ?? 0) };
  if (!together || Math.abs(gap.pathCm) < kind.toleranceCm) return { code: 'uncertain', knownCm: known };
  if (moveOf(kind, gap) !== null) return null;
  const { repeatsCm } = gap;
  return { code: 'too-uncertain-to-move', pathCm: roundPathCm(gap.pathCm, 0), knownCm: known, repeatsCm };
}

/** Two overheads hear all drums, and can be brought together for one only. */
function drumOfMove({ drum, drums }: Reading, kind: PairKind): number | null {
  return kind.id === 'two-overheads' && drums.length > 1 ? drum : null;
}

/** A gap that such a pair hardly has: what was read is told beside the doubt, nothing is advised. */
export function planFar(reading: Reading, said: Said, gap: Gap, context: PlanContext): FarPlan {
  const pathCm = pathSaidCm(gap);
  return {
    type: 'far',
    action: 'cannot-tell',
    gap,
    pathCm,
    sureness: agreed(reading, said, gap),
    notes: [{ code: 'what-was-read', pathCm, polarity: gap.polarity }],
    cautions: cautionsOf(pairKind(context.kind), { patches: true }),
  };
}

/** How sure: the hits that agree, how closely they repeat, how true that is; of which drum. */
function agreed(reading: Reading, said: Said, gap: Gap): Sureness {
  return {
    code: 'agreed',
    agreeing: agreeingOf(said),
    withinCm: said.spreadSamples === null ? null : gap.repeatsCm,
    trueToCm: gap.uncertaintyCm,
    which: whichShown(reading),
  };
}

const noTiming = (reading: Reading, said: Said): Sureness => ({
  code: 'cannot-tell',
  reason: reasonOf(statedOf(reading)),
  // a measured answer without a number is of whatever drum
  which: said.state === 'measured' ? null : whichShown(reading),
});

/** What is the same to do, for a person: the recommended one may differ in its figures only. */
export const samePlan = (x: Alternative, y: Alternative): boolean => actionOf(x) === actionOf(y);
