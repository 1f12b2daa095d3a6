/** What stands beside an answer, one sentence each: notes and cautions. */
import { bandText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { dbText } from '../../text/level';
import { capital, lowerFirst } from '../../text/sentence';
import { msText } from '../../text/time';
import type { AdviceContext } from '../advice';
import { pairKind } from '../plan/pairKinds';
import type { Caution, Note, SumThen } from '../plan/planTypes';
import { recommendedText, stepsText } from './answerWords';
import { HANDS, PATCH_CALL } from './cautionWords';
import { theDrumCalled } from './drumWords';
import { kindWords } from './pairKindWords';
import { reasonWords } from './reasonWords';
import { checkFirstText } from './usualWords';
import { micName, pushText, voteText } from './wording';

export function noteText(note: Note, context: AdviceContext): string {
  switch (note.code) {
    case 'sum-not-as-arrival':
      return `${capital(pushText(note.polarity, context))}, but with the mics where they are, ${voteText(note.vote, context)}.${note.so === null ? '' : ` ${thenText(note.so, context)}.`}`;
    case 'pushes-apart':
      return `With that delay the first pushes are ${msText(note.apartMs)} apart.`;
    case 'band-loses':
      return `The trade-off: ${bandText(note.lowHz, note.highHz)} gets ${dbText(note.db)} thinner.`;
    case 'band-would-gain':
      return `Inverting makes ${bandText(note.lowHz, note.highHz)} ${dbText(note.db)} fuller, but not the drum as a whole.`;
    case 'no-timing': {
      const { because, next } = reasonWords(note.reason);
      return `No timing ${note.hopeless || context.ended ? 'from these hits' : 'yet'}, because ${because}. ${capital(next)}.`;
    }
    case 'unusual-polarity': {
      const usual = pairKind(context.kind).expectedPolarity === 'inverted' ? 'inverted' : 'same';
      const then = lowerFirst(stepsText(note.todo, note.flip, context) ?? 'leave both as they are');
      return checkFirstText(usual, then, note.switchKnown);
    }
    case 'drum-in-the-gap':
      return `Moving a stand won’t make up the ${cmText(note.pathCm)}: the drum is between the two mics.`;
    case 'invert-both-of-a-pair':
      return 'If B is one of a stereo pair, invert both, or invert A instead.';
    case 'equal-for-one-drum':
      return 'This makes the distances equal for this drum only; for every other drum they change.';
    case 'other-drum-changes': {
      const drum = theDrumCalled(note.drum, context);
      const goes = note.moveCm > 0 ? 'that much closer to' : 'that much further from';
      return `If the move ${note.moveCm > 0 ? 'brings' : 'takes'} ${micName('B', context)} ${goes} ${drum} too, the path for ${drum} goes from ${cmText(note.nowCm)} to ${cmText(note.thenCm)}. Measure both drums again afterwards.`;
    }
    case 'what-was-read': {
      const where = note.pathCm > 0 ? 'further' : 'closer';
      return `Measured: ${micName('B', context)} is ${cmText(note.pathCm)} ${where}, and ${pushText(note.polarity, context)}.`;
    }
    case 'recommended-otherwise':
      return recommendedText(note.action, context);
    case 'move-changes-sound':
      return 'Worked out as a pure delay: a real move changes the sound too. Measure again after it.';
    case 'sum-of-now':
      return 'That’s with the mics where they are now; any move changes it.';
    case 'others-played':
      return othersText(note.drums, context);
    case 'several-heard':
      return `${capital(reasonWords({ code: 'which-drum' }).because)}.`;
  }
}

/** more names than these make no short line */
const NAMES_AT_MOST = 2;

/** "The floor tom is played: not counted."; without names where not each of them has one, or they are many */
function othersText(drums: readonly number[], context: AdviceContext): string {
  const named = drums.length <= NAMES_AT_MOST && drums.every((id) => context.drumNames?.has(id));
  if (named) {
    const names = drums.map((id) => theDrumCalled(id, context)).join(' and ');
    return `${capital(names)} ${drums.length === 1 ? 'is' : 'are'} played: not counted.`;
  }
  return drums.length === 1 ? 'Another drum is played: not counted.' : 'Other drums are played: not counted.';
}

/** What stands above it, told so that nobody adds the sum's own wish to it. */
function thenText(then: SumThen, context: AdviceContext): string {
  if (then.code === 'as-the-sum') return 'The plan follows the sum';
  const start = `With the ${then.by}`;
  if (then.invertB) return `${start}, ${micName('B', context)} has to be inverted`;
  return context.invertB
    ? `${start}, ${micName('B', context)}’s polarity stays as it is wired`
    : `${start}, leave both polarities as they are`;
}

/** Null: the pair's kind has none such. */
export function cautionText(caution: Caution, { kind }: AdviceContext): string | null {
  switch (caution) {
    case 'patch':
      return PATCH_CALL;
    case 'hands':
      return HANDS;
    case 'stop-drummer':
      return 'Ask the drummer to stop before you reach in. Move the stand, step away, then four hits.';
    case 'move-warning':
      return kindWords(kind).moveWarning;
    case 'phantom':
      return kindWords(kind).phantomCaution;
    case 'house-rules':
      return 'House rules, local codes and the qualified people on site come first.';
  }
}
