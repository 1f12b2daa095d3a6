/** What stands beside an answer: whatever is unusual, or limits it; and what to mind. None of it is something else to do. */
import { BANDS } from '../../reading/bands';
import type { Polarity, Reading } from '../../reading/reading';
import { type Alternative, gainDb, LEAST_GAIN_DB } from './alternatives';
import { type Gap, gapOf, pathSaidCm } from './gap';
import type { PairKind } from './pairKinds';
import type { AnswerPlan, Caution, Note, PlanContext, SumThen } from './planTypes';
import type { EndedReason, Reason } from './reasons';
import type { SumVote } from './votes';

/** a delay that is best for the sum may take the first pushes so far apart, ms, before it is worth a sentence */
const APART_MS = 0.3;
/** from here on what a band loses, or would gain, is worth a sentence */
const STRONG_DB = 2;

export interface NoteInput {
  reading: Reading;
  /** null: no arrival */
  gap: Gap | null;
  context: PlanContext;
  kind: PairKind;
  /** the two can be brought together */
  together: boolean;
  /** what is to be done, and what would be recommended: the same, unless a person chose */
  recommended: Alternative;
  best: Alternative;
  alternatives: readonly Alternative[];
  /** B is turned over from what the meter shows */
  flip: boolean;
  /** the sum as things stand says the opposite of the first push */
  conflict: SumVote | null;
  missing: AnswerPlan['missing'];
}

export function notesOf(n: NoteInput): Note[] {
  const { reading, gap, context, kind, conflict } = n;
  const { moveCm, delayMs } = n.recommended;
  const notes: Note[] = [];
  if (n.best !== n.recommended) notes.push({ code: 'recommended-otherwise', action: n.best });
  if (conflict !== null && gap !== null)
    notes.push({ code: 'sum-not-as-arrival', polarity: gap.polarity, vote: conflict, so: thenOf(n, conflict) });
  notes.push(...bandNotes(n));
  if (n.missing !== null) notes.push({ code: 'no-timing', ...n.missing });
  if (gap === null) return [...notes, { code: 'sum-of-now' }];
  const turned = context.invertB !== (context.switched ?? false);
  const wired: Polarity = (gap.polarity === 'inverted') !== turned ? 'inverted' : 'same';
  if (kind.expectedPolarity !== 'either' && kind.expectedPolarity !== wired)
    notes.push({
      code: 'unusual-polarity',
      switchKnown: context.switched !== undefined,
      todo: n.recommended,
      flip: n.flip,
    });
  if (kind.movable && !n.together) notes.push({ code: 'drum-in-the-gap', pathCm: gap.pathCm });
  // common practice, no source: a stereo pair stays a pair only if both of it are alike
  if (n.recommended.invertB && (kind.id === 'close-overhead' || kind.id === 'close-room'))
    notes.push({ code: 'invert-both-of-a-pair' });
  if (moveCm !== null && kind.id === 'two-overheads')
    notes.push({ code: 'equal-for-one-drum' }, ...otherDrums(reading, moveCm, context));
  if (delayMs !== null && Math.abs(gap.delayMs - delayMs) >= APART_MS)
    notes.push({ code: 'pushes-apart', apartMs: Math.abs(gap.delayMs - delayMs) });
  if (moveCm !== null) notes.push({ code: 'move-changes-sound' });
  return notes;
}

/** How the plan goes with the sum of now: it does what that asks for, or something in time that asks for the other polarity. */
function thenOf({ recommended, flip }: NoteInput, { prefers }: SumVote): SumThen | null {
  const { invertB, moveCm, delayMs } = recommended;
  if ((prefers === 'inverted') === flip) return { code: 'as-the-sum' };
  if (moveCm === null && delayMs === null) return null;
  return { code: 'in-time', by: moveCm === null ? 'delay' : 'move', invertB };
}

/**
 * The band that pays most for the plan; where nothing is done, the one that would gain most by an invert, if it is known that
 * the whole drum wouldn't.
 */
function bandNotes({ recommended, alternatives }: NoteInput): Note[] {
  const { invertB, delayMs, moveCm } = recommended;
  const leave = !invertB && delayMs === null && moveCm === null;
  const from = leave
    ? alternatives.find((one) => one.invertB && one.delayMs === null && one.moveCm === null)
    : recommended;
  const gain = from === undefined ? null : gainDb(from);
  if (leave && (gain === null || gain >= LEAST_GAIN_DB)) return [];
  let most: Note | null = null;
  let mostDb = STRONG_DB;
  for (const [i, { lowHz, highHz }] of BANDS.entries()) {
    const db = (from?.bandsDb[i] ?? 0) * (leave ? 1 : -1);
    if (db < mostDb) continue;
    mostDb = db;
    most = { code: leave ? 'band-would-gain' : 'band-loses', lowHz, highHz, db };
  }
  return most === null ? [] : [most];
}

/** What the move does to the other drums, where it goes as far towards them as towards the one that is read: more it can't do. */
function otherDrums(reading: Reading, moveCm: number, { temperatureC }: PlanContext): Note[] {
  return reading.drums.flatMap((drum): Note[] => {
    if (drum.id === reading.drum || drum.state !== 'measured') return [];
    const gap = gapOf(drum, reading.sampleRate, temperatureC);
    if (gap === null) return [];
    const nowCm = pathSaidCm(gap);
    return [{ code: 'other-drum-changes', drum: drum.id, moveCm, nowCm, thenCm: nowCm - moveCm }];
  });
}

/** What is to be done at the kit about a reason (its words say what): something is patched, or hands go to a stand. */
const SENDS: Partial<Record<(Reason | EndedReason)['code'], Caution>> = {
  'a-silent': 'patch',
  'b-silent': 'patch',
  'both-silent': 'patch',
  'gain-copy': 'patch',
  'bit-identical': 'patch',
  'lows-only-a': 'patch',
  'lows-only-b': 'patch',
  'push-and-shape-disagree': 'hands',
  'no-common-signal': 'hands',
};

/** What the plan sends hands to. */
export interface AtTheKit {
  moves?: boolean;
  /** a cable is to be checked or plugged */
  patches?: boolean;
  /** what is missing; null: nothing */
  reason?: Reason | EndedReason | null;
}

/** What to mind: always the kind's own, and whatever keeps hands, heads and microphones whole where somebody goes to the kit. */
export function cautionsOf(
  { movable, phantomMayHarm }: PairKind,
  { moves = false, patches = false, reason = null }: AtTheKit = {},
): Caution[] {
  const list: Caution[] = [];
  const sends = patches ? 'patch' : reason === null ? undefined : SENDS[reason.code];
  if (sends === 'patch' || (sends === 'hands' && !moves)) list.push(sends);
  if (moves) list.push('stop-drummer');
  if (moves && movable) list.push('move-warning');
  if (phantomMayHarm) list.push('phantom');
  if (list.length > 0) list.push('house-rules');
  return list;
}
