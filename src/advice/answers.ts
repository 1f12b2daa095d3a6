/** The sentence and the call-out of a reading with an arrival. */
import type { Polarity, Reading } from '../dsp/reading';
import type { Advice, AdviceContext } from './advice';
import { bandText, capital, cmText, dbText, msSpoken, msText, roundPathCm, spanText } from './format';
import { conflicts, type Gap } from './gap';
import { pairKind } from './kinds';
import { predictedLowEndVote, type SumVote } from './sums';
import { moveSpoken, moveText, named, polaritySpoken, polarityText, standText } from './wording';

/** How B's first push comes, against A's. */
export const push = (polarity: Polarity): string => (polarity === 'same' ? 'the same way as' : 'opposite to');

type Answer = Pick<Advice, 'text' | 'callOut'>;

const FINE = 'Everything is fine, leave it';

/** `calm`: nothing contradicts, so that "everything is fine" may be said. */
export function movableAnswer(
  flip: boolean,
  moveCm: number | null,
  calm: boolean,
  vote: SumVote | null,
  gap: Gap,
  context: AdviceContext,
): Answer {
  const but = conflicts(vote, gap) ? '; as things stand the sum says the opposite' : '';
  const spoken = polaritySpoken(flip, context);
  if (moveCm !== null) {
    const said = moveSpoken(moveCm);
    if (spoken === null) return { text: `${capital(moveText(moveCm, context, false))}${but}.`, callOut: `B ${said}` };
    const joint = flip && !context.invertB ? ', then' : '; then';
    return {
      text: `${polarityText(flip, context)}${joint} ${moveText(moveCm, context, true)}${but}.`,
      callOut: `${spoken}, then ${said}`,
    };
  }
  const near = Math.abs(gap.pathCm) < pairKind(context.kind).toleranceCm;
  const place = near
    ? `the distances are equal within ${spanText(Math.max(Math.abs(gap.pathCm), gap.repeatsCm, gap.uncertaintyCm ?? 0))}`
    : unknownMoveText(gap);
  if (spoken === null) {
    return {
      text: `${calm ? FINE : `Leave ${named('B', context)} as it is`}: B's first push is the same way as A's, and ${place}${but}.`,
      callOut: calm ? FINE : 'Leave B as it is',
    };
  }
  const b = context.invertB ? '' : ': press its polarity switch';
  return { text: `${polarityText(flip, context)}${b}. Leave both where they are: ${place}${but}.`, callOut: spoken };
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
  const sum = vote && `the low end (${bandText(vote.lowHz, vote.highHz)}) comes out ${dbText(vote.db)} fuller that way`;
  const arrival = conflicts(vote, gap)
    ? 'though the arrival says the opposite'
    : `and B's first push is ${push(gap.polarity)} A's`;
  const why = sum ? `${sum}, ${arrival}` : arrivalBecause(reading, gap);
  const later = delayLaterMs === null ? '' : ` ${laterText(delayLaterMs, flip, reading, gap, context)}`;
  const text = `${polarity}${joint}${why}.${later}`;
  if (spoken !== null) return { text, callOut: spoken };
  if (delayLaterMs === null || conflicts(vote, gap)) return { text, callOut: fine ? FINE : 'Leave B as it is' };
  return { text, callOut: `Leave B, delay ${delayLaterMs > 0 ? 'A' : 'B'} ${msSpoken(delayLaterMs)} in the mix` };
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

/**
 * A delay brings the first pushes together, so the arrival's polarity belongs to it, whatever the sum decides until then.
 * Where the coherency says that the low end will not follow, that is said.
 */
function laterText(delayLaterMs: number, flip: boolean, reading: Reading, gap: Gap, context: AdviceContext): string {
  const which = named(delayLaterMs > 0 ? 'A' : 'B', context);
  const path = cmText(roundPathCm(gap.pathCm, Math.max(gap.repeatsCm, gap.uncertaintyCm ?? 0)));
  const when = delayLaterMs > 0 ? 'later' : 'earlier';
  const arrivalFlip = gap.polarity === 'inverted';
  const turned = arrivalFlip === flip ? '' : ` and listen ${standText(arrivalFlip ? 'inverted' : 'as-is', context)}`;
  const after = predictedLowEndVote(reading, gap.delayMs / 1000);
  const doubt =
    after !== null && (after.prefers === 'inverted') !== arrivalFlip
      ? `; the sum says otherwise: the low end would then be fuller ${standText(after.prefers, context)}`
      : '';
  return `To bring the attacks together in the mix, if wanted, delay ${which} by ${msText(delayLaterMs)}${turned} (B hears the drum ${path} cm ${when})${doubt}.`;
}

function unknownMoveText(gap: Gap): string {
  const doubt = Math.max(gap.uncertaintyCm ?? 0, gap.repeatsCm);
  const when = gap.pathCm > 0 ? 'late' : 'early';
  const path = cmText(roundPathCm(gap.pathCm, 0));
  return `B may be some ${path} cm ${when}, known only to ±${spanText(doubt)}: too little for a move`;
}
