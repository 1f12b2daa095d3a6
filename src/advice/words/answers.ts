/** The sentence and the call-out of a reading with an arrival. */
import type { Reading } from '../../reading/reading';
import { roundPathCm } from '../../reading/rounding';
import { cmSpoken, cmText, spanText } from '../../text/length';
import { dbText } from '../../text/level';
import { capital, lowerFirst } from '../../text/sentence';
import { msSpoken, msText } from '../../text/time';
import type { Advice, AdviceContext } from '../advice';
import { conflicts, type Gap, knownCm, pathSaidCm, surelyNear, voteAfterMove } from '../plan/gap';
import { type PairKind, pairKind } from '../plan/kinds';
import { predictedLowEndVote, type SumVote } from '../plan/votes';
import { kindWords } from './kindWords';
import {
  moveSpoken,
  moveText,
  named,
  OWN_OCTAVE,
  octaveText,
  polaritySpoken,
  polarityText,
  pushText,
  standText,
} from './wording';

type Answer = Pick<Advice, 'text' | 'callOut'>;

const FINE = 'Everything is fine, leave it';

/** A doubtful distance, rounded as it is known. */
export const farCm = (gap: Gap): number => roundPathCm(gap.pathCm, knownCm(gap) ?? gap.repeatsCm);

/** Too far apart to be what the pair says: the doubt comes first, and neither a move nor a switch is advised. */
export function farAnswer(kind: PairKind, gap: Gap): Answer {
  const cm = farCm(gap);
  return {
    text: `${cmText(cm)} is far for ${lowerFirst(kindWords(kind.id).title)}: check that A and B are what the pair says.`,
    callOut: `${capital(cmSpoken(cm))} is far: check A and B`,
  };
}

/** `calm`: nothing contradicts, so that "everything is fine" may be said. */
export function movableAnswer(
  flip: boolean,
  moveCm: number | null,
  calm: boolean,
  vote: SumVote | null,
  reading: Reading,
  gap: Gap,
  context: AdviceContext,
): Answer {
  const but = conflicts(vote, gap) ? ` ${butText(vote, moveCm, reading, gap, context)}` : '';
  const spoken = polaritySpoken(flip, context);
  if (moveCm !== null) {
    const said = moveSpoken(moveCm);
    if (spoken === null) return { text: `${capital(moveText(moveCm, context, false))}.${but}`, callOut: said };
    // "it" would be the meter's invert where that was just named
    const then = context.invertB
      ? `; then ${moveText(moveCm, context, false)}`
      : `, then ${moveText(moveCm, context, true)}`;
    return { text: `${polarityText(flip, context)}${then}.${but}`, callOut: `${spoken}. Then ${said}` };
  }
  const kind = pairKind(context.kind);
  const near = Math.abs(gap.pathCm) < kind.toleranceCm;
  const sure = surelyNear(kind, gap);
  const place = sure
    ? equalText(gap)
    : near
      ? `${doubtText(gap, context)}, so no move is advised`
      : unknownMoveText(gap);
  if (spoken !== null) {
    const b = context.invertB ? '' : ': press its polarity switch';
    return { text: `${polarityText(flip, context)}${b}. Leave both where they are: ${place}.${but}`, callOut: spoken };
  }
  if (near && !sure) return { text: `${polarityText(flip, context)}; ${place}.${but}`, callOut: 'Leave B as it is' };
  const fine = calm && sure;
  const start = fine ? FINE : polarityText(flip, context);
  return {
    text: `${start}: ${pushText(gap.polarity, context)}, and ${place}.${but}`,
    callOut: fine ? FINE : 'Leave B as it is',
  };
}

const equalText = (gap: Gap): string =>
  `the distances are equal within ${spanText(Math.max(Math.abs(gap.pathCm), knownCm(gap) ?? 0))}`;

/** How little is known of the distance. */
function doubtText(gap: Gap, { ended }: AdviceContext): string {
  const known = knownCm(gap);
  return known === null
    ? `how accurate the distance is isn't known${ended ? '' : ' yet'}`
    : `the distance is known only to ±${spanText(known)}`;
}

/** The sum prefers the other polarity than the first push, now; and after the move, where that can be said. */
function butText(vote: SumVote, moveCm: number | null, reading: Reading, gap: Gap, context: AdviceContext): string {
  const start = `As things stand ${octaveText(vote.lowHz, vote.highHz)} is fuller ${standText(vote.prefers, context)}`;
  if (moveCm === null) return `${start}: listen to both.`;
  const after = voteAfterMove(reading.sum, gap, moveCm);
  const changes = after !== null && !conflicts(after, gap);
  return `${start}; ${changes ? 'after the move that should change' : 'listen after the move'}.`;
}

export function fixedAnswer(
  vote: SumVote | null,
  flip: boolean,
  delayLaterMs: number | null,
  calm: boolean,
  reading: Reading,
  gap: Gap,
  context: AdviceContext,
): Answer {
  const spoken = polaritySpoken(flip, context);
  const fine = spoken === null && calm;
  const polarity = fine ? FINE : polarityText(flip, context);
  const joint = polarity.includes(':') ? '; ' : ': ';
  const sum = vote && `${octaveText(vote.lowHz, vote.highHz)} comes out ${dbText(vote.db)} fuller that way`;
  const arrival = conflicts(vote, gap)
    ? 'though the arrival says the opposite'
    : `and ${pushText(gap.polarity, context)}`;
  const why = sum ? `${sum}, ${arrival}` : arrivalBecause(reading, gap, context);
  const doubt = surelyNear(pairKind(context.kind), gap)
    ? ''
    : ` ${capital(doubtText(gap, context))}, so no delay is advised.`;
  const later = delayLaterMs === null ? doubt : ` ${inTheMixText(delayLaterMs, flip, reading, gap, context)}`;
  const text = `${polarity}${joint}${why}.${later}`;
  if (spoken !== null) return { text, callOut: spoken };
  if (delayLaterMs === null || conflicts(vote, gap)) return { text, callOut: fine ? FINE : 'Leave B as it is' };
  return { text, callOut: `Leave B, delay ${delayLaterMs > 0 ? 'A' : 'B'} ${msSpoken(delayLaterMs)} in the mix` };
}

/** Why the arrival decides where the sum doesn't. */
function arrivalBecause(reading: Reading, gap: Gap, context: AdviceContext): string {
  const arrivals = pushText(gap.polarity, context);
  const { fuller, fullerLowHz, fullerHighHz } = reading.sum;
  if (fuller !== null && fullerLowHz !== null && fullerHighHz !== null) {
    return `${octaveText(fullerLowHz, fullerHighHz)} is as full with either polarity, within 1 dB, and ${arrivals}`;
  }
  return `${arrivals}, and no low octave carries enough in common to say otherwise`;
}

/**
 * A delay brings the first pushes together, so the arrival's polarity belongs to it, whatever the sum decides until then.
 * Where the coherency says that the low end will not follow, that is said.
 */
function inTheMixText(delayLaterMs: number, flip: boolean, reading: Reading, gap: Gap, context: AdviceContext): string {
  const which = named(delayLaterMs > 0 ? 'A' : 'B', context);
  const path = cmText(pathSaidCm(gap));
  const when = delayLaterMs > 0 ? 'later' : 'earlier';
  const arrivalFlip = gap.polarity === 'inverted';
  const turned = arrivalFlip === flip ? '' : ` and listen ${standText(arrivalFlip ? 'inverted' : 'as-is', context)}`;
  const after = predictedLowEndVote(reading.sum, gap.delayMs / 1000);
  const doubt =
    after !== null && (after.prefers === 'inverted') !== arrivalFlip
      ? `; the sum says otherwise: ${OWN_OCTAVE} would then be fuller ${standText(after.prefers, context)}`
      : '';
  return `To bring the attacks together in the mix, if wanted, delay ${which} by ${msText(delayLaterMs)}${turned} (B hears the drum ${path} ${when})${doubt}.`;
}

function unknownMoveText(gap: Gap): string {
  const when = gap.pathCm > 0 ? 'late' : 'early';
  const path = cmText(roundPathCm(gap.pathCm, 0));
  const known = knownCm(gap);
  const doubt =
    known === null
      ? `and the hits repeat only within ±${spanText(gap.repeatsCm)}`
      : `known only to ±${spanText(known)}`;
  return `B may be some ${path} ${when}, ${doubt}: too little for a move`;
}
