/** What stands beside an answer: whatever contradicts it, is unusual, or limits it. One sentence each. */
import type { Polarity, Reading } from '../../reading/reading';
import { bandText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { dbText } from '../../text/level';
import { drumNumber } from '../../text/names';
import { lowerFirst } from '../../text/sentence';
import type { AdviceContext } from '../advice';
import { conflicts, type Gap, gapOf, pathSaidCm, voteAfterMove } from '../plan/gap';
import type { PairKind } from '../plan/kinds';
import { opposingVote, type SumVote } from '../plan/votes';
import { kindWords } from './kindWords';
import { OWN_OCTAVE, pushText, standText, voteText } from './wording';

export interface NoteInput {
  reading: Reading;
  gap: Gap;
  context: AdviceContext;
  kind: PairKind;
  vote: SumVote | null;
  flip: boolean;
  moveCm: number | null;
  together: boolean;
}

export function notesOf(n: NoteInput): string[] {
  const { reading, gap, context, kind, vote, flip, moveCm } = n;
  const decided = flip ? 'inverted' : 'as-is';
  const notes: string[] = [];
  if (conflicts(vote, gap)) notes.push(conflictText(n, vote));
  else if (moveCm !== null) notes.push(...movedText(n));
  const other = opposingVote(reading.sum, decided);
  if (other) {
    const band = bandText(other.lowHz, other.highHz);
    notes.push(
      `Another band says the opposite: ${band} is ${dbText(other.db)} fuller ${standText(other.prefers, context)}.`,
    );
  }
  const turned = context.invertB !== (context.switched ?? false);
  const wired: Polarity = (gap.polarity === 'inverted') !== turned ? 'inverted' : 'same';
  if (kind.expectedPolarity !== 'either' && kind.expectedPolarity !== wired) {
    const unless = context.switched === undefined ? ' unless a polarity switch is already pressed' : '';
    notes.push(`Unusual here${unless}: ${lowerFirst(kindWords(kind.id).expectation)}`);
  }
  if (kind.movable && !n.together) {
    notes.push(`A gap of ${cmText(gap.pathCm)} can't be taken away by a stand: the drum itself lies in it.`);
  }
  if (flip && (kind.id === 'close-overhead' || kind.id === 'close-room')) {
    // common practice, no source: a stereo pair stays a pair only if both of it are alike
    notes.push('Where B is one of a pair, invert both of that pair alike, or A instead.');
  }
  if (moveCm !== null && kind.id === 'two-overheads') {
    notes.push('This makes the distances equal for the drum that is struck; every other drum changes with it.');
    notes.push(...otherDrumsText(n, moveCm));
  }
  return notes;
}

/** What the move does to the other drums, where it goes as far towards them as towards the one that is read: more it can't do. */
function otherDrumsText({ reading, context }: NoteInput, moveCm: number): string[] {
  return reading.drums.flatMap((drum) => {
    if (drum.id === reading.drum || drum.state !== 'measured') return [];
    const gap = gapOf(drum, reading.sampleRate, context.temperatureC);
    if (gap === null) return [];
    const now = pathSaidCm(gap);
    const then = now - moveCm;
    const goes = moveCm > 0 ? 'comes as much closer to' : 'goes as much back from';
    return [
      `If B ${goes} ${drumNumber(drum.id)} too, that takes ${drumNumber(drum.id)} from ${cmText(now)} to ${cmText(then)} apart: measure both again after the move.`,
    ];
  });
}

/** What the low end should do once B is moved as advised; null where that isn't known. */
function afterMove(n: NoteInput): SumVote | null {
  return n.moveCm === null ? null : voteAfterMove(n.reading.sum, n.gap, n.moveCm);
}

function conflictText(n: NoteInput, vote: SumVote): string {
  const { gap, context } = n;
  const start = `Arrival and sum disagree: ${pushText(gap.polarity, context)}, yet ${voteText(vote, context)}`;
  if (!n.together) return `${start}; the two can't be brought together, so the sum decides.`;
  if (n.moveCm === null) return `${start}; listen to both polarities before you decide.`;
  const after = afterMove(n);
  if (after === null) return `${start}; listen to both polarities after the move.`;
  const db = after.db >= 10 ? 'more than 10 dB' : `about ${dbText(after.db)}`;
  const stays = (after.prefers === 'inverted') !== (gap.polarity === 'inverted');
  return stays
    ? `${start}, and it should stay so after the move: listen to both polarities.`
    : `${start}; after the move that octave should be ${db} fuller ${standText(after.prefers, context)}.`;
}

/** Arrival and sum agree now: will they after the move? */
function movedText(n: NoteInput): string[] {
  const after = afterMove(n);
  if (!conflicts(after, n.gap)) return [];
  return [
    `After the move ${OWN_OCTAVE} may come out fuller ${standText(after.prefers, n.context)}: listen to both polarities.`,
  ];
}
