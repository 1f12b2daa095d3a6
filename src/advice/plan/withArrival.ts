/** The plan of a reading with an arrival: who decides the polarity, who may move, what contradicts it. */
import type { MeasuredAnswer, Reading, SumReading } from '../../reading/reading';
import { roundPathCm } from '../../reading/rounding';
import { whichShown } from './drums';
import {
  canMove,
  conflicts,
  type Gap,
  isFar,
  knownCm,
  laterMs,
  moveOf,
  pathSaidCm,
  surelyNear,
  voteAfterMove,
} from './gap';
import { cautionsOf, notesOf } from './notes';
import { type PairKind, pairKind } from './pairKinds';
import type {
  AdviceAction,
  Alternative,
  ApartPlan,
  Conflict,
  DelayLater,
  Distance,
  FarPlan,
  PlanContext,
  Sureness,
  TogetherPlan,
} from './planTypes';
import { agreeingOf } from './reasons';
import { lowEndVote, opposingVote, predictedLowEndVote, type SumVote } from './votes';

export function planArrival(
  reading: Reading,
  answer: MeasuredAnswer,
  gap: Gap,
  context: PlanContext,
): TogetherPlan | ApartPlan | FarPlan {
  const kind = pairKind(context.kind);
  const sureness = agreed(reading, answer, gap);
  if (isFar(kind, gap)) return planFar(gap, kind, sureness);
  const together = canMove(kind, gap.pathCm);
  const vote = lowEndVote(reading.sum);
  const recommended = recommend(reading.sum, gap, kind, vote, context);
  const { flip, press, moveCm, delayLater } = recommended;
  const conflict = conflictOf(reading.sum, gap, vote, together, moveCm);
  const opposed = conflict !== null || opposingVote(reading.sum, flip ? 'inverted' : 'as-is') !== null;

  let action: AdviceAction = press ? 'invert' : 'leave';
  if (moveCm !== null) action = press ? 'invert-and-move' : 'move';
  // where the arrival's polarity isn't the one that stays, a delay alone would do harm: it is told, not advised
  else if (delayLater !== null && !press && conflict === null) action = 'delay-later';

  const common = {
    action,
    gap,
    recommended,
    // the meter's own invert, where it is on, comes off in any case
    fine: !flip && !context.invertB && surelyNear(kind, gap) && !opposed,
    conflict,
    sureness,
    notes: notesOf({ reading, gap, context, kind, together, recommended, conflict }),
    cautions: cautionsOf(kind, moveCm !== null),
  };
  if (!together) {
    const distance = delayLater === null ? distanceOf(kind, gap, false) : null;
    return { type: 'apart', ...common, because: becauseOf(reading.sum, vote), distance };
  }
  const distance = moveCm === null ? distanceOf(kind, gap, true) : null;
  return { type: 'together', ...common, distance, forDrum: moveCm === null ? null : drumOfMove(reading, kind) };
}

/** What can be brought together goes by the arrival; elsewhere the sum is what remains, and the arrival breaks a tie. */
function recommend(
  sum: SumReading,
  gap: Gap,
  kind: PairKind,
  vote: SumVote | null,
  { invertB }: PlanContext,
): Alternative {
  const together = canMove(kind, gap.pathCm);
  const flip = together || vote === null ? gap.polarity === 'inverted' : vote.prefers === 'inverted';
  return {
    flip,
    press: flip !== invertB,
    moveCm: moveOf(kind, gap),
    delayLater: together ? null : delayLaterOf(sum, gap, kind, flip),
  };
}

/**
 * A delay brings the first pushes together, so the arrival's polarity belongs to it, whatever the sum decides until then.
 * Where the coherency says that the low end will not follow, that is told.
 */
function delayLaterOf(sum: SumReading, gap: Gap, kind: PairKind, flip: boolean): DelayLater | null {
  const delayMs = laterMs(kind, gap);
  if (delayMs === null) return null;
  const arrivalFlip = gap.polarity === 'inverted';
  const after = predictedLowEndVote(sum, gap.delayMs / 1000);
  return {
    delayMs,
    pathCm: pathSaidCm(gap),
    listen: arrivalFlip === flip ? null : arrivalFlip ? 'inverted' : 'as-is',
    sumPrefers: conflicts(after, gap) ? after.prefers : null,
  };
}

/** What becomes of a sum that says the opposite of the first push. */
function conflictOf(
  sum: SumReading,
  gap: Gap,
  vote: SumVote | null,
  together: boolean,
  moveCm: number | null,
): Conflict | null {
  if (!conflicts(vote, gap)) return null;
  if (!together) return { code: 'sum-decides', vote };
  if (moveCm === null) return { code: 'no-move', vote };
  const after = voteAfterMove(sum, gap, moveCm);
  if (after === null) return { code: 'unknown-after-move', vote };
  return { code: conflicts(after, gap) ? 'stays-after-move' : 'changes-after-move', vote, after };
}

/** Why the sum decides, or why it doesn't. */
function becauseOf({ fuller, fullerLowHz, fullerHighHz }: SumReading, vote: SumVote | null): ApartPlan['because'] {
  if (vote !== null) return { code: 'sum', vote };
  if (fuller === null || fullerLowHz === null || fullerHighHz === null) return { code: 'no-sum' };
  return { code: 'octave-even', lowHz: fullerLowHz, highHz: fullerHighHz };
}

/** How well the distance is known, where neither a move nor a delay is advised. */
function distanceOf(kind: PairKind, gap: Gap, together: boolean): Distance {
  const known = knownCm(gap);
  if (surelyNear(kind, gap)) return { code: 'equal', withinCm: Math.max(Math.abs(gap.pathCm), known ?? 0) };
  if (!together || Math.abs(gap.pathCm) < kind.toleranceCm) return { code: 'uncertain', knownCm: known };
  const { repeatsCm } = gap;
  return { code: 'too-uncertain-to-move', pathCm: roundPathCm(gap.pathCm, 0), knownCm: known, repeatsCm };
}

/** Two overheads hear all drums, and can be brought together for one only. */
function drumOfMove({ drum, drums }: Reading, kind: PairKind): number | null {
  return kind.id === 'two-overheads' && drums.length > 1 ? drum : null;
}

/** A gap that such a pair hardly has: what was read is told beside the doubt, nothing is advised. */
function planFar(gap: Gap, kind: PairKind, sureness: Sureness): FarPlan {
  const pathCm = roundPathCm(gap.pathCm, knownCm(gap) ?? gap.repeatsCm);
  return {
    type: 'far',
    action: 'cannot-tell',
    gap,
    pathCm,
    sureness,
    notes: [{ code: 'what-was-read', pathCm, polarity: gap.polarity }],
    cautions: cautionsOf(kind, false),
  };
}

/** How sure: the hits that agree, how closely they repeat, how true that is; of which drum. */
function agreed(reading: Reading, answer: MeasuredAnswer, gap: Gap): Sureness {
  return {
    code: 'agreed',
    agreeing: agreeingOf(answer),
    withinCm: answer.spreadSamples === null ? null : gap.repeatsCm,
    trueToCm: gap.uncertaintyCm,
    which: whichShown(reading),
  };
}
