/** What stands beside an answer, one sentence each: notes and cautions. */
import { bandText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { dbText } from '../../text/level';
import { capital, lowerFirst } from '../../text/sentence';
import type { AdviceContext } from '../advice';
import { pairKind } from '../plan/pairKinds';
import type { Caution, Note } from '../plan/planTypes';
import { recommendedText, stepsText } from './answerWords';
import { HANDS, PATCH_CALL } from './cautionWords';
import { theDrumCalled } from './drumWords';
import { kindWords } from './pairKindWords';
import { reasonWords } from './reasonWords';
import { checkFirstText } from './usualWords';
import { micName, pushText, voteText } from './wording';

export function noteText(note: Note, context: AdviceContext, delayOnly = false): string {
  switch (note.code) {
    case 'sum-not-as-arrival':
      return `${capital(pushText(note.polarity, context))}, yet ${voteText(note.vote, context)} where it stands${delayOnly ? '; with the delay, leave both polarities as they are' : ': the plan goes by the sum'}.`;
    case 'band-loses':
      return `The price: ${bandText(note.lowHz, note.highHz)} is ${dbText(note.db)} thinner.`;
    case 'band-would-gain':
      return `Flipped, ${bandText(note.lowHz, note.highHz)} gains ${dbText(note.db)}, but the whole drum doesn't.`;
    case 'no-timing': {
      const { because, next } = reasonWords(note.reason);
      return `No timing ${note.hopeless || context.ended ? 'from these hits' : 'yet'}, because ${because}; ${next}.`;
    }
    case 'unusual-polarity': {
      const usual = pairKind(context.kind).expectedPolarity === 'inverted' ? 'inverted' : 'same';
      const then = lowerFirst(stepsText(note.todo, note.flip, context) ?? 'leave both as they are');
      return checkFirstText(usual, then, note.switchKnown);
    }
    case 'drum-in-the-gap':
      return `No stand can take ${cmText(note.pathCm)} away: the drum is between the two.`;
    case 'invert-both-of-a-pair':
      return 'If B is one of a stereo pair, invert both, or invert A instead.';
    case 'equal-for-one-drum':
      return 'This makes the distances equal for this drum; every other drum changes with it.';
    case 'other-drum-changes': {
      const drum = theDrumCalled(note.drum, context);
      const goes = note.moveCm > 0 ? 'comes as much closer to' : 'goes as much back from';
      return `If ${micName('B', context)} ${goes} ${drum} too, that takes ${drum} from ${cmText(note.nowCm)} to ${cmText(note.thenCm)} apart: measure both again after the move.`;
    }
    case 'what-was-read': {
      const when = note.pathCm > 0 ? 'later' : 'earlier';
      return `What was read: ${micName('B', context)} hears the drum ${cmText(note.pathCm)} ${when}, and ${pushText(note.polarity, context)}.`;
    }
    case 'recommended-otherwise':
      return recommendedText(note.action, context);
    case 'move-changes-sound':
      return 'Worked out as for a delay: a real move also changes what the microphone hears. Measure again after it.';
    case 'sum-of-now':
      return 'That is the sum as they stand; any move changes it.';
  }
}

/** Null: the pair's kind has none such. */
export function cautionText(caution: Caution, { kind }: AdviceContext): string | null {
  switch (caution) {
    case 'patch':
      return PATCH_CALL;
    case 'hands':
      return HANDS;
    case 'stop-drummer':
      return 'Ask the drummer to stop before you reach in; measure again after.';
    case 'move-warning':
      return kindWords(kind).moveWarning;
    case 'phantom':
      return kindWords(kind).phantomCaution;
    case 'house-rules':
      return 'House rules, local codes and licensed practice come first.';
  }
}
