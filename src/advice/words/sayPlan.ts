/** A plan in words: the sentence, the call-out, how sure, what stands beside it, what to mind. */
import { cmText, spanText } from '../../text/length';
import { capital, lowerFirst } from '../../text/sentence';
import type { Advice, AdviceContext } from '../advice';
import type { FixInputPlan, FollowingPlan, HitMorePlan, NoAnswerPlan, Plan, Sureness } from '../plan/planTypes';
import { type Answer, answerWords, farAnswer } from './answerWords';
import { whichDrumText } from './drumWords';
import { cautionText, noteText } from './noteWords';
import { agreeingText, endedWords, reasonText, reasonWords } from './reasonWords';
import { micName } from './wording';

/** @param context the one that the plan was made in */
export function sayPlan(
  plan: Plan,
  context: AdviceContext,
): Pick<Advice, 'text' | 'callOut' | 'sureness' | 'notes' | 'cautions'> {
  return {
    ...answerText(plan, context),
    sureness: surenessText(plan.sureness, context),
    notes: plan.notes.map((note) => noteText(note, context)),
    cautions: plan.cautions.flatMap((caution) => cautionText(caution, context) ?? []),
  };
}

function answerText(plan: Plan, context: AdviceContext): Answer {
  switch (plan.type) {
    case 'answer':
      return answerWords(plan, context);
    case 'far':
      return farAnswer(plan, context);
    case 'following':
      return followingAnswer(plan, context);
    case 'hit-more':
      return hitMoreAnswer(plan);
    case 'no-answer':
      return noAnswer(plan, context);
    case 'fix-input':
      return fixInputAnswer(plan);
  }
}

/** "6 of 6 hits agree, hit-to-hit spread ±4 mm; accurate to ±1.2 cm (90 %)"; which drum they are of, where several are heard */
function surenessText(sureness: Sureness, context: AdviceContext): string {
  const { ended } = context;
  const named = whichDrumText(sureness.which, context);
  const which = named === '' ? '' : ` (${named})`;
  switch (sureness.code) {
    case 'agreed': {
      const { agreeing, withinCm, trueToCm } = sureness;
      const within = withinCm === null ? '' : `, hit-to-hit spread ±${spanText(withinCm)}`;
      const truth =
        trueToCm === null ? `accuracy unknown${ended ? '' : ' so far'}` : `accurate to ±${spanText(trueToCm)} (90 %)`;
      return `${agreeingText(agreeing)}${which} agree${within}; ${truth}`;
    }
    case 'provisional':
      return `provisional: a mic is being moved${which}`;
    case 'hit-more': {
      const { reason } = sureness;
      const short = 'ended' in reason ? lowerFirst(endedWords(reason).short) : reasonWords(reason).short;
      return `${short}${which}`;
    }
    case 'cannot-tell':
      return `no timing: ${reasonWords(sureness.reason).short}${which}`;
    case 'no-reading':
      return `no reading: ${reasonWords(sureness.reason).short}${which}`;
  }
}

function hitMoreAnswer({ reason }: HitMorePlan): Answer {
  return { text: reasonText(reason), callOut: 'ended' in reason ? endedWords(reason).short : 'Keep hitting' };
}

function fixInputAnswer({ reason, overloaded }: FixInputPlan): Answer {
  const { short } = reasonWords(reason);
  const callOut = overloaded ? `${short}: turn its gain down` : `${capital(short)}: stop the drummer, check the inputs`;
  return { text: reasonText(reason), callOut };
}

/** A help for the hand that moves, not a reading: nobody reaches in while a drum is being hit. */
function followingAnswer({ toGo }: FollowingPlan, context: AdviceContext): Answer {
  const then = 'step away, then four hits';
  switch (toGo.code) {
    case 'not-known':
      return {
        text: `A stand is being moved. Stop the drummer, set it, ${then}.`,
        callOut: `Stop the drummer, set it, ${then}`,
      };
    case 'stop':
      return {
        text: `Close enough, within ${cmText(toGo.withinCm)}. Stop the drummer, leave it there, ${then}.`,
        callOut: `Close enough: stop the drummer, ${then}`,
      };
    case 'move': {
      const { moveCm } = toGo;
      const set = `${cmText(moveCm)} ${moveCm > 0 ? 'closer' : 'back'}`;
      return {
        text: `Stop the drummer, set ${micName('B', context)} ${set}, ${then}.`,
        callOut: `Stop the drummer, set ${micName('B', context)} ${set}`,
      };
    }
  }
}

function noAnswer({ reason, hopeless }: NoAnswerPlan, { ended }: AdviceContext): Answer {
  if (reason.code === 'which-drum') return whichDrumAnswer(ended ?? false);
  const { because, next, short } = reasonWords(reason);
  const start = hopeless || ended ? 'No answer from these hits' : 'No answer yet';
  return { text: `${start}, because ${because}. ${capital(next)}.`, callOut: `${start}: ${short}` };
}

/** A person has to say it: no hit of the drums that are heard tells. */
function whichDrumAnswer(ended: boolean): Answer {
  const next = ended ? 'Each one heard has its own answer: choose one.' : 'Choose one, or have just one drum hit.';
  return { text: `Which drum? ${next}`, callOut: 'Which drum? Choose it at the meter' };
}
