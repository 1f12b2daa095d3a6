/** What stands beside an answer: whatever contradicts it, is unusual, or limits it; and what to mind. */
import type { Polarity, Reading } from '../../reading/reading';
import { conflicts, type Gap, gapOf, pathSaidCm, voteAfterMove } from './gap';
import type { PairKind } from './pairKinds';
import type { Alternative, Caution, Conflict, Note, PlanContext } from './planTypes';
import { opposingVote } from './votes';

export interface NoteInput {
  reading: Reading;
  gap: Gap;
  context: PlanContext;
  kind: PairKind;
  /** the two can be brought together */
  together: boolean;
  recommended: Alternative;
  conflict: Conflict | null;
}

export function notesOf(n: NoteInput): Note[] {
  const { reading, gap, context, kind, conflict } = n;
  const { flip, moveCm } = n.recommended;
  const notes: Note[] = [];
  if (conflict) notes.push({ code: 'arrival-and-sum-disagree', polarity: gap.polarity, conflict });
  else if (moveCm !== null) notes.push(...oppositeAfterMove(n, moveCm));
  const other = opposingVote(reading.sum, flip ? 'inverted' : 'as-is');
  if (other) notes.push({ code: 'another-band-opposite', ...other });
  const turned = context.invertB !== (context.switched ?? false);
  const wired: Polarity = (gap.polarity === 'inverted') !== turned ? 'inverted' : 'same';
  if (kind.expectedPolarity !== 'either' && kind.expectedPolarity !== wired) {
    notes.push({ code: 'unusual-polarity', switchKnown: context.switched !== undefined });
  }
  if (kind.movable && !n.together) notes.push({ code: 'drum-in-the-gap', pathCm: gap.pathCm });
  if (flip && (kind.id === 'close-overhead' || kind.id === 'close-room')) {
    // common practice, no source: a stereo pair stays a pair only if both of it are alike
    notes.push({ code: 'invert-both-of-a-pair' });
  }
  if (moveCm !== null && kind.id === 'two-overheads') {
    notes.push({ code: 'equal-for-one-drum' }, ...otherDrums(n, moveCm));
  }
  return notes;
}

/** Arrival and sum agree now: will they after the move? */
function oppositeAfterMove({ reading, gap }: NoteInput, moveCm: number): Note[] {
  const after = voteAfterMove(reading.sum, gap, moveCm);
  return conflicts(after, gap) ? [{ code: 'sum-opposite-after-move', prefers: after.prefers }] : [];
}

/** What the move does to the other drums, where it goes as far towards them as towards the one that is read: more it can't do. */
function otherDrums({ reading, context }: NoteInput, moveCm: number): Note[] {
  return reading.drums.flatMap((drum): Note[] => {
    if (drum.id === reading.drum || drum.state !== 'measured') return [];
    const gap = gapOf(drum, reading.sampleRate, context.temperatureC);
    if (gap === null) return [];
    const nowCm = pathSaidCm(gap);
    return [{ code: 'other-drum-changes', drum: drum.id, moveCm, nowCm, thenCm: nowCm - moveCm }];
  });
}

/** What to mind: always the kind's own, and beside a move whatever keeps hands and heads whole. */
export function cautionsOf({ movable, phantomMayHarm }: PairKind, moves: boolean): Caution[] {
  const list: Caution[] = [];
  if (moves) list.push('stop-drummer');
  if (moves && movable) list.push('move-warning');
  if (phantomMayHarm) list.push('phantom');
  if (list.length > 0) list.push('house-rules');
  return list;
}
