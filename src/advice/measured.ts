/** The advice of a reading with an arrival: who decides the polarity, who may move, what contradicts it. */
import type { Polarity, Reading } from '../dsp/reading';
import type { Advice, AdviceAction, AdviceContext } from './advice';
import {
  bandText,
  capital,
  cmPerSample,
  cmText,
  dbText,
  hitsText,
  msText,
  roundDelayMs,
  roundPathCm,
  spanText,
} from './format';
import { type PairKind, pairKind } from './kinds';
import { agreeing } from './sentences';
import { lowEndVote, opposingVote, predictedLowEndVote, type SumVote } from './sums';
import { cautionsFor, moveSpoken, moveText, named, polaritySpoken, polarityText, standText, voteText } from './wording';

/** a move is never smaller than this many times the repeats-within */
const MOVE_PER_REPEATS = 2;

/** An arrival in the units of a stand. */
export interface Gap {
  polarity: Polarity;
  delayMs: number;
  /** path B − A, cm: positive: B hears the drum later */
  pathCm: number;
  /** repeats within, cm; 0 where unknown */
  repeatsCm: number;
  /** 90 % uncertainty, cm; null where unknown */
  uncertaintyCm: number | null;
}

/** The arrival of a reading; null where it hasn't one. */
export function gapOf(reading: Reading, temperatureC: number): Gap | null {
  const { polarity, delaySamples, sampleRate, spreadSamples, uncertaintySamples } = reading;
  if (polarity === null || delaySamples === null || !Number.isFinite(delaySamples) || !(sampleRate > 0)) return null;
  const cm = cmPerSample(sampleRate, temperatureC);
  const scaled = (x: number | null): number | null => (x !== null && Number.isFinite(x) ? Math.abs(x) * cm : null);
  return {
    polarity,
    delayMs: (delaySamples / sampleRate) * 1000,
    pathCm: delaySamples * cm,
    repeatsCm: scaled(spreadSamples) ?? 0,
    uncertaintyCm: scaled(uncertaintySamples),
  };
}

/** Can the two be brought together by moving a stand? */
export function canMove(kind: PairKind, pathCm: number): boolean {
  return kind.movable && (kind.movableUpToCm === null || Math.abs(pathCm) <= kind.movableUpToCm);
}

/** The move, cm, positive: B towards the drum; null: too small to be worth it, or to be known. */
export function moveOf(kind: PairKind, gap: Gap): number | null {
  if (!canMove(kind, gap.pathCm)) return null;
  const uncertainty = gap.uncertaintyCm ?? 0;
  const known = Math.max(gap.repeatsCm, uncertainty);
  if (Math.abs(gap.pathCm) < Math.max(kind.toleranceCm, uncertainty)) return null;
  const move = roundPathCm(gap.pathCm, known);
  return move === 0 || Math.abs(move) < MOVE_PER_REPEATS * gap.repeatsCm ? null : move;
}

/** "6 of 6 hits agree, within ±4 mm; true to about ±1.2 cm (90 %)" */
export function surenessText(reading: Reading, gap: Gap): string {
  const [agree, of] = agreeing(reading);
  const within = reading.spreadSamples === null ? '' : `, within ±${spanText(gap.repeatsCm)}`;
  const truth = gap.uncertaintyCm === null ? '' : `; true to about ±${spanText(gap.uncertaintyCm)} (90 %)`;
  return `${agree} of ${hitsText(of)} agree${within}${truth}`;
}

const push = (polarity: Polarity): string => (polarity === 'same' ? 'the same way as' : 'opposite to');

/** The advice of a reading with an arrival. */
export function adviseMeasured(reading: Reading, gap: Gap, context: AdviceContext): Advice {
  const kind = pairKind(context.kind);
  const together = canMove(kind, gap.pathCm);
  const vote = lowEndVote(reading);
  const arrivalFlip = gap.polarity === 'inverted';
  // What can be brought together goes by the arrival; elsewhere the sum is what remains, and the arrival breaks a tie.
  const flip = together || vote === null ? arrivalFlip : vote.prefers === 'inverted';
  const moveCm = moveOf(kind, gap);
  const delayLaterMs = together ? null : laterMs(kind, gap);
  const pressed = flip !== context.invertB;

  const answer = together
    ? movableAnswer(flip, moveCm, gap, context)
    : fixedAnswer(reading, vote, flip, delayLaterMs, gap, context);
  let action: AdviceAction = pressed ? 'invert' : 'leave';
  if (moveCm !== null) action = pressed ? 'invert-and-move' : 'move';
  else if (delayLaterMs !== null && !pressed) action = 'delay-later';

  return {
    action,
    moveCm,
    delayLaterMs,
    ...answer,
    sureness: surenessText(reading, gap),
    notes: notesOf({ reading, gap, context, kind, vote, flip, moveCm, delayLaterMs, together }),
    cautions: cautionsFor(context, moveCm !== null),
  };
}

/** Positive: delay A. Null within the tolerance, or where repeats or uncertainty drown it. */
function laterMs(kind: PairKind, gap: Gap): number | null {
  const unsureCm = Math.max(gap.uncertaintyCm ?? 0, MOVE_PER_REPEATS * gap.repeatsCm);
  if (Math.abs(gap.pathCm) < Math.max(kind.toleranceCm, unsureCm)) return null;
  const unsureMs = Math.abs(gap.delayMs / gap.pathCm) * unsureCm;
  const ms = roundDelayMs(gap.delayMs, unsureMs);
  return ms === 0 ? null : ms;
}

type Answer = Pick<Advice, 'text' | 'callOut'>;

function movableAnswer(flip: boolean, moveCm: number | null, gap: Gap, context: AdviceContext): Answer {
  const spoken = polaritySpoken(flip, context);
  if (moveCm !== null) {
    const said = moveSpoken(moveCm);
    if (spoken === null) return { text: `${capital(moveText(moveCm, context, false))}.`, callOut: `B ${said}` };
    const joint = flip && !context.invertB ? ', then' : '; then';
    return {
      text: `${polarityText(flip, context)}${joint} ${moveText(moveCm, context, true)}.`,
      callOut: `${spoken}, then ${said}`,
    };
  }
  const place = `the distances are within ${spanText(Math.max(Math.abs(gap.pathCm), gap.repeatsCm))}`;
  if (spoken === null) {
    return {
      text: `Everything is fine, leave it: B's first push is the same way as A's, and ${place}.`,
      callOut: 'Everything is fine, leave it',
    };
  }
  const b = context.invertB ? '' : ': press its polarity switch';
  return { text: `${polarityText(flip, context)}${b}. Leave both where they are: ${place}.`, callOut: spoken };
}

function fixedAnswer(
  reading: Reading,
  vote: SumVote | null,
  flip: boolean,
  delayLaterMs: number | null,
  gap: Gap,
  context: AdviceContext,
): Answer {
  const spoken = polaritySpoken(flip, context);
  const polarity = polarityText(flip, context);
  const because = vote ? voteText(vote, context) : arrivalBecause(reading, gap);
  const joint = polarity.includes(':') ? '; ' : ': ';
  const later = delayLaterMs === null ? '' : ` ${laterText(delayLaterMs, gap, context)}`;
  const lead = spoken === null && delayLaterMs === null ? 'Everything is fine, leave it' : polarity;
  const sentence = spoken === null && delayLaterMs === null ? `${lead}: ${because}.` : `${lead}${joint}${because}.`;
  const delay =
    delayLaterMs === null ? null : `delay ${delayLaterMs > 0 ? 'A' : 'B'} ${msText(delayLaterMs)} later if wanted`;
  return {
    text: sentence + later,
    callOut: delay === null ? (spoken ?? 'Everything is fine, leave it') : `${spoken ?? 'Leave B'}, ${delay}`,
  };
}

/** Why the arrival decides where the sum doesn't. */
function arrivalBecause(reading: Reading, gap: Gap): string {
  const arrivals = `B's first push is ${push(gap.polarity)} A's`;
  const { fuller, fullerLowHz, fullerHighHz } = reading;
  if (fuller !== null && fullerLowHz !== null && fullerHighHz !== null) {
    return `either polarity gives the same low end (${bandText(fullerLowHz, fullerHighHz)}, within 1 dB), and ${arrivals}`;
  }
  return `${arrivals}, and the low end carries too little in common to say otherwise`;
}

function laterText(delayLaterMs: number, gap: Gap, context: AdviceContext): string {
  const which = named(delayLaterMs > 0 ? 'A' : 'B', context);
  const path = cmText(roundPathCm(gap.pathCm, Math.max(gap.repeatsCm, gap.uncertaintyCm ?? 0)));
  const when = delayLaterMs > 0 ? 'later' : 'earlier';
  return `To bring the attacks together in the mix, if wanted, delay ${which} by ${msText(delayLaterMs)} (B hears the drum ${path} cm ${when}).`;
}

interface NoteInput {
  reading: Reading;
  gap: Gap;
  context: AdviceContext;
  kind: PairKind;
  vote: SumVote | null;
  flip: boolean;
  moveCm: number | null;
  delayLaterMs: number | null;
  together: boolean;
}

function notesOf(n: NoteInput): string[] {
  const { reading, gap, context, kind, vote, flip, moveCm } = n;
  const decided = flip ? 'inverted' : 'as-is';
  const notes: string[] = [];
  const conflict = vote !== null && (vote.prefers === 'inverted') !== (gap.polarity === 'inverted');
  if (conflict) notes.push(conflictText(n, vote));
  if (n.delayLaterMs !== null) notes.push(...delayedText(n));
  const other = opposingVote(reading, decided);
  if (other) {
    const band = bandText(other.lowHz, other.highHz);
    notes.push(
      `Another band says the opposite: ${band} is ${dbText(other.db)} fuller ${standText(other.prefers, context)}.`,
    );
  }
  const wired: Polarity = (gap.polarity === 'inverted') !== context.invertB ? 'inverted' : 'same';
  if (kind.expectedPolarity !== 'either' && kind.expectedPolarity !== wired) {
    notes.push(`Unusual here unless a polarity switch is already pressed: ${lowerFirst(kind.expectation)}`);
  }
  if (moveCm === null && n.together && Math.abs(gap.pathCm) >= kind.toleranceCm) notes.push(unknownMoveText(gap));
  if (kind.movable && !n.together) {
    notes.push(`A gap of ${cmText(gap.pathCm)} cm can't be taken away by a stand: the drum itself lies in it.`);
  }
  if (moveCm !== null && kind.doubtBeyondCm !== null && Math.abs(moveCm) > kind.doubtBeyondCm) {
    notes.push('That is far for such a pair: check that A and B are the two you mean before you move anything.');
  }
  if (moveCm !== null && kind.id === 'two-overheads') {
    notes.push('This makes the distances equal for the drum that is struck; every other drum changes with it.');
  }
  return notes;
}

const lowerFirst = (text: string): string => text.charAt(0).toLowerCase() + text.slice(1);

function conflictText(n: NoteInput, vote: SumVote): string {
  const { reading, gap, context } = n;
  const start = `Arrival and sum disagree: B's first push is ${push(gap.polarity)} A's, yet ${voteText(vote, context)}`;
  if (!n.together) return `${start}; the two can't be brought together, so the sum decides.`;
  if (n.moveCm === null) return `${start}; listen to both polarities before you decide.`;
  const after = predictedLowEndVote(reading, (n.gap.delayMs / 1000) * (n.moveCm / n.gap.pathCm));
  if (after === null) return `${start}; listen to both polarities after the move.`;
  const agrees = (after.prefers === 'inverted') === (gap.polarity === 'inverted');
  return agrees
    ? `${start}; after the move the low end should be about ${dbText(after.db)} fuller ${standText(after.prefers, context)}.`
    : `${start}, and it should stay so after the move: listen to both polarities.`;
}

/** Which polarity belongs to a later delay, where it isn't the one advised now. */
function delayedText(n: NoteInput): string[] {
  const arrivalFlip = n.gap.polarity === 'inverted';
  if (arrivalFlip === n.flip) return [];
  const which = (n.delayLaterMs as number) > 0 ? 'A' : 'B';
  const then = standText(arrivalFlip ? 'inverted' : 'as-is', n.context);
  const after = predictedLowEndVote(n.reading, n.gap.delayMs / 1000);
  const doubt =
    after !== null && (after.prefers === 'inverted') !== arrivalFlip
      ? ', though the low end may still say the opposite'
      : '';
  return [`If you do delay ${which}, the first pushes go together ${then}${doubt}: listen to both polarities.`];
}

function unknownMoveText(gap: Gap): string {
  const doubt = Math.max(gap.uncertaintyCm ?? 0, gap.repeatsCm);
  const when = gap.pathCm > 0 ? 'late' : 'early';
  const path = cmText(roundPathCm(gap.pathCm, 0));
  return `B may be some ${path} cm ${when}, but that is known only to ±${spanText(doubt)}: too little for a move.`;
}
