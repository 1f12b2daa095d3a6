/** A plan in words: the sentence, the call-out, how sure, what stands beside it, what to mind. */
import { cmText, spanText } from '../../text/length';
import { lowerFirst } from '../../text/sentence';
import type { Advice, AdviceContext } from '../advice';
import type { FixInputPlan, FollowingPlan, HitMorePlan, NoArrivalPlan, Plan, Sureness } from '../plan/planTypes';
import { whichDrumText } from './drumWords';
import { cautionText, noteText } from './noteWords';
import { agreeingText, endedWords, reasonText, reasonWords } from './reasonWords';
import { type Answer, apartAnswer, farAnswer, togetherAnswer } from './withArrivalWords';
import { moveSpoken, standText, voteText } from './wording';

/** @param context the one that the plan was made in */
export function sayPlan(
  plan: Plan,
  context: AdviceContext,
): Pick<Advice, 'text' | 'callOut' | 'sureness' | 'notes' | 'cautions'> {
  return {
    ...answerText(plan, context),
    sureness: surenessText(plan.sureness, context),
    notes: plan.notes.map((note) => noteText(note, plan, context)),
    cautions: plan.cautions.flatMap((caution) => cautionText(caution, context) ?? []),
  };
}

function answerText(plan: Plan, context: AdviceContext): Answer {
  switch (plan.type) {
    case 'together':
      return togetherAnswer(plan, context);
    case 'apart':
      return apartAnswer(plan, context);
    case 'far':
      return farAnswer(plan, context);
    case 'following':
      return followingAnswer(plan);
    case 'hit-more':
      return hitMoreAnswer(plan);
    case 'no-arrival':
      return noArrivalAnswer(plan, context);
    case 'fix-input':
      return fixInputAnswer(plan);
  }
}

/** "6 of 6 hits agree, within ±4 mm; true to about ±1.2 cm (90 %)"; which drum they are of, where several are heard */
function surenessText(sureness: Sureness, { ended }: AdviceContext): string {
  const named = whichDrumText(sureness.which);
  const which = named === '' ? '' : ` (${named})`;
  switch (sureness.code) {
    case 'agreed': {
      const { agreeing, withinCm, trueToCm } = sureness;
      const within = withinCm === null ? '' : `, within ±${spanText(withinCm)}`;
      const truth =
        trueToCm === null ? `accuracy not known${ended ? '' : ' yet'}` : `true to about ±${spanText(trueToCm)} (90 %)`;
      return `${agreeingText(agreeing)}${which} agree${within}; ${truth}`;
    }
    case 'provisional':
      return `provisional: a microphone is on the move${which}`;
    case 'hit-more': {
      const { reason } = sureness;
      const short = 'ended' in reason ? lowerFirst(endedWords(reason).short) : reasonWords(reason).short;
      return `${short}${which}`;
    }
    case 'cannot-tell':
      return `can't tell: ${reasonWords(sureness.reason).short}${which}`;
    case 'no-reading':
      return `no reading: ${reasonWords(sureness.reason).short}${which}`;
  }
}

function hitMoreAnswer({ reason }: HitMorePlan): Answer {
  return { text: reasonText(reason), callOut: 'ended' in reason ? endedWords(reason).short : 'Keep hitting' };
}

function fixInputAnswer({ reason, overloaded }: FixInputPlan): Answer {
  const { short } = reasonWords(reason);
  const callOut = overloaded ? `${short}, turn its gain down` : `Check the inputs: ${short}`;
  return { text: reasonText(reason), callOut };
}

/** A help for the hand that moves, not a reading. */
function followingAnswer({ reason, toGo }: FollowingPlan): Answer {
  switch (toGo.code) {
    case 'not-known':
      return { text: reasonText(reason), callOut: 'On the move, keep hitting' };
    case 'stop':
      return {
        text: `A microphone is on the move, and the distances are within about ${cmText(toGo.withinCm)}: stop there and keep hitting.`,
        callOut: 'Stop there, keep hitting',
      };
    case 'move': {
      const { moveCm } = toGo;
      const way = moveCm > 0 ? 'B closer to the drum, or A back' : 'B back from the drum, or A closer';
      return {
        text: `A microphone is on the move: about ${cmText(moveCm)} to go, ${way}; keep hitting, the number is provisional.`,
        callOut: `${moveSpoken(moveCm)} or so to go`,
      };
    }
  }
}

function noArrivalAnswer({ reason, hopeless, vote }: NoArrivalPlan, context: AdviceContext): Answer {
  const { because, next, short } = reasonWords(reason);
  const start = hopeless
    ? `No ${vote ? 'arrival' : 'answer'} will come from this pair as it stands, because ${because}`
    : `Can't tell${vote ? ' the arrival' : ''}, because ${because}`;
  if (vote === null) return { text: `${start}; ${next}.`, callOut: `Can't tell: ${short}` };
  return {
    text: `${start}; ${next}. The sum still answers: ${voteText(vote, context)}.`,
    callOut: `Can't tell the arrival; fuller ${standText(vote.prefers, context)}`,
  };
}
