/** The advice of a reading with an arrival: who decides the polarity, who may move, what contradicts it. */
import type { MeasuredAnswer, Reading } from '../../reading/reading';
import { cmText, spanText } from '../../text/length';
import { drumNumber } from '../../text/names';
import type { Advice, AdviceAction, AdviceContext } from '../advice';
import { farAnswer, farCm, fixedAnswer, movableAnswer } from '../words/answers';
import { whichDrum } from '../words/drumWords';
import { notesOf } from '../words/notes';
import { agreeingText } from '../words/reasonWords';
import { cautionsFor, plainAdvice, pushText } from '../words/wording';
import { canMove, conflicts, type Gap, isFar, laterMs, moveOf, surelyNear } from './gap';
import { type PairKindId, pairKind } from './kinds';
import { lowEndVote, opposingVote } from './votes';

/** "6 of 6 hits agree, within ±4 mm; true to about ±1.2 cm (90 %)"; which drum they are of, where several are heard */
export function surenessText(reading: Reading, answer: MeasuredAnswer, gap: Gap, ended = false): string {
  const within = answer.spreadSamples === null ? '' : `, within ±${spanText(gap.repeatsCm)}`;
  const truth =
    gap.uncertaintyCm === null
      ? `; accuracy not known${ended ? '' : ' yet'}`
      : `; true to about ±${spanText(gap.uncertaintyCm)} (90 %)`;
  const which = whichDrum(reading);
  return `${agreeingText(answer)}${which === '' ? '' : ` (${which})`} agree${within}${truth}`;
}

/** The advice of a reading with an arrival. */
export function adviseMeasured(reading: Reading, answer: MeasuredAnswer, gap: Gap, context: AdviceContext): Advice {
  const kind = pairKind(context.kind);
  if (isFar(kind, gap)) return adviseFar(reading, answer, gap, context);
  const together = canMove(kind, gap.pathCm);
  const vote = lowEndVote(reading.sum);
  const arrivalFlip = gap.polarity === 'inverted';
  // What can be brought together goes by the arrival; elsewhere the sum is what remains, and the arrival breaks a tie.
  const flip = together || vote === null ? arrivalFlip : vote.prefers === 'inverted';
  const moveCm = moveOf(kind, gap);
  const delayLaterMs = together ? null : laterMs(kind, gap);
  const pressed = flip !== context.invertB;

  const opposed = conflicts(vote, gap) || opposingVote(reading.sum, flip ? 'inverted' : 'as-is') !== null;
  const calm = surelyNear(kind, gap) && !opposed;
  const said = together
    ? movableAnswer(flip, moveCm, calm, vote, reading, gap, context)
    : fixedAnswer(vote, flip, delayLaterMs, calm, reading, gap, context);
  const { text } = said;
  const callOut = moveCm === null ? said.callOut : forDrum(said.callOut, reading, kind.id);
  let action: AdviceAction = pressed ? 'invert' : 'leave';
  if (moveCm !== null) action = pressed ? 'invert-and-move' : 'move';
  // where the arrival's polarity isn't the one that stays, a delay alone would do harm: it is said, not advised
  else if (delayLaterMs !== null && !pressed && !conflicts(vote, gap)) action = 'delay-later';

  return {
    action,
    moveCm,
    delayLaterMs,
    text,
    callOut,
    sureness: surenessText(reading, answer, gap, context.ended),
    notes: notesOf({ reading, gap, context, kind, vote, flip, moveCm, together }),
    cautions: cautionsFor(context, moveCm !== null),
  };
}

/** longer calls are set small, and hard to say */
const CALL_LETTERS = 56;

/** Two overheads hear all drums, and can be brought together for one only: the call says which, where it stays short. */
function forDrum(callOut: string, { drum, drums }: Reading, kind: PairKindId): string {
  if (kind !== 'two-overheads' || drum === null || drums.length < 2) return callOut;
  const named = `${callOut}, for ${drumNumber(drum)}`;
  return named.length <= CALL_LETTERS ? named : callOut;
}

/** A gap that such a pair hardly has: what was read is said beside the doubt, nothing is advised. */
function adviseFar(reading: Reading, measured: MeasuredAnswer, gap: Gap, context: AdviceContext): Advice {
  const { text, callOut } = farAnswer(pairKind(context.kind), gap);
  const advice = plainAdvice(
    'cannot-tell',
    text,
    callOut,
    surenessText(reading, measured, gap, context.ended),
    cautionsFor(context, false),
  );
  const when = gap.pathCm > 0 ? 'later' : 'earlier';
  advice.notes.push(
    `What was read: B hears the drum ${cmText(farCm(gap))} ${when}, and ${pushText(gap.polarity, context)}.`,
  );
  return advice;
}
