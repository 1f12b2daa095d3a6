/** What stands beside an answer, one sentence each: notes and cautions. */
import { bandText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { dbText } from '../../text/level';
import { drumNumber } from '../../text/names';
import { capital, lowerFirst } from '../../text/sentence';
import type { AdviceContext } from '../advice';
import type { Caution, Conflict, Note, Plan } from '../plan/planTypes';
import { kindWords } from './pairKindWords';
import { OWN_OCTAVE, octaveText, pushText, standText, voteText } from './wording';

export function noteText(note: Note, plan: Plan, context: AdviceContext): string {
  switch (note.code) {
    case 'arrival-and-sum-disagree':
      return disagreeText(pushText(note.polarity, context), note.conflict, context);
    case 'sum-opposite-after-move':
      return `After the move ${OWN_OCTAVE} may come out fuller ${standText(note.prefers, context)}: listen to both polarities.`;
    case 'another-band-opposite': {
      // beside a reading without an arrival the band is named, not weighed
      const by = plan.type === 'no-arrival' ? '' : `${dbText(note.db)} `;
      const band = bandText(note.lowHz, note.highHz);
      return `Another band says the opposite: ${band} is ${by}fuller ${standText(note.prefers, context)}.`;
    }
    case 'unusual-polarity': {
      const unless = note.switchKnown ? '' : ' unless a polarity switch is already pressed';
      return `Unusual here${unless}: ${lowerFirst(kindWords(context.kind).expectation)}`;
    }
    case 'drum-in-the-gap':
      return `A gap of ${cmText(note.pathCm)} can't be taken away by a stand: the drum itself lies in it.`;
    case 'invert-both-of-a-pair':
      return 'Where B is one of a pair, invert both of that pair alike, or A instead.';
    case 'equal-for-one-drum':
      return 'This makes the distances equal for the drum that is struck; every other drum changes with it.';
    case 'other-drum-changes': {
      const drum = drumNumber(note.drum);
      const goes = note.moveCm > 0 ? 'comes as much closer to' : 'goes as much back from';
      return `If B ${goes} ${drum} too, that takes ${drum} from ${cmText(note.nowCm)} to ${cmText(note.thenCm)} apart: measure both again after the move.`;
    }
    case 'what-was-read': {
      const when = note.pathCm > 0 ? 'later' : 'earlier';
      return `What was read: B hears the drum ${cmText(note.pathCm)} ${when}, and ${pushText(note.polarity, context)}.`;
    }
    case 'sum-of-now':
      return 'This is the sum as things stand, not the polarity of the first push: it changes with every move.';
    case 'octave-even':
      return `${capital(octaveText(note.lowHz, note.highHz))} is as full with either polarity of B, within 1 dB.`;
  }
}

function disagreeText(arrivals: string, conflict: Conflict, context: AdviceContext): string {
  const start = `Arrival and sum disagree: ${arrivals}, yet ${voteText(conflict.vote, context)}`;
  switch (conflict.code) {
    case 'sum-decides':
      return `${start}; the two can't be brought together, so the sum decides.`;
    case 'no-move':
      return `${start}; listen to both polarities before you decide.`;
    case 'unknown-after-move':
      return `${start}; listen to both polarities after the move.`;
    case 'stays-after-move':
      return `${start}, and it should stay so after the move: listen to both polarities.`;
    case 'changes-after-move': {
      const { db, prefers } = conflict.after;
      const by = db >= 10 ? 'more than 10 dB' : `about ${dbText(db)}`;
      return `${start}; after the move that octave should be ${by} fuller ${standText(prefers, context)}.`;
    }
  }
}

/** Null: the pair's kind has none such. */
export function cautionText(caution: Caution, { kind }: AdviceContext): string | null {
  switch (caution) {
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
