/** The sentence and the call-out of a reading with an arrival. */
import { cmSpoken, cmText, spanText } from '../../text/length';
import { dbText } from '../../text/level';
import { drumNumber } from '../../text/names';
import { capital, lowerFirst } from '../../text/sentence';
import { msSpoken, msText } from '../../text/time';
import type { Advice, AdviceContext } from '../advice';
import type { ApartPlan, Conflict, DelayLater, Distance, FarPlan, TogetherPlan } from '../plan/planTypes';
import { kindWords } from './pairKindWords';
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

export type Answer = Pick<Advice, 'text' | 'callOut'>;

const FINE = 'Everything is fine, leave it';
const LEAVE = 'Leave B as it is';

/** longer calls are set small, and hard to say */
const CALL_LETTERS = 56;

/** Too far apart to be what the pair says: the doubt comes first, and neither a move nor a switch is advised. */
export function farAnswer({ pathCm }: FarPlan, { kind }: AdviceContext): Answer {
  return {
    text: `${cmText(pathCm)} is far for ${lowerFirst(kindWords(kind).title)}: check that A and B are what the pair says.`,
    callOut: `${capital(cmSpoken(pathCm))} is far: check A and B`,
  };
}

export function togetherAnswer(plan: TogetherPlan, context: AdviceContext): Answer {
  const { moveCm, flip } = plan.recommended;
  const but = plan.conflict === null ? '' : ` ${conflictText(plan.conflict, context)}`;
  if (moveCm !== null) return moveAnswer(flip, moveCm, but, plan.forDrum, context);
  const polarity = polarityText(flip, context);
  const spoken = polaritySpoken(flip, context);
  const place = distanceText(plan.distance, context);
  if (spoken !== null) {
    const b = context.invertB ? '' : ': press its polarity switch';
    return { text: `${polarity}${b}. Leave both where they are: ${place}.${but}`, callOut: spoken };
  }
  if (plan.distance?.code === 'uncertain') return { text: `${polarity}; ${place}.${but}`, callOut: LEAVE };
  const start = plan.fine ? FINE : polarity;
  return {
    text: `${start}: ${pushText(plan.gap.polarity, context)}, and ${place}.${but}`,
    callOut: plan.fine ? FINE : LEAVE,
  };
}

function moveAnswer(flip: boolean, moveCm: number, but: string, drum: number | null, context: AdviceContext): Answer {
  const spoken = polaritySpoken(flip, context);
  const said = moveSpoken(moveCm);
  if (spoken === null) {
    return { text: `${capital(moveText(moveCm, context, false))}.${but}`, callOut: forDrum(said, drum) };
  }
  // "it" would be the meter's invert where that was just named
  const then = context.invertB
    ? `; then ${moveText(moveCm, context, false)}`
    : `, then ${moveText(moveCm, context, true)}`;
  return { text: `${polarityText(flip, context)}${then}.${but}`, callOut: forDrum(`${spoken}. Then ${said}`, drum) };
}

/** For which drum, where the call stays short. */
function forDrum(callOut: string, drum: number | null): string {
  if (drum === null) return callOut;
  const longer = `${callOut}, for ${drumNumber(drum)}`;
  return longer.length <= CALL_LETTERS ? longer : callOut;
}

/** Why both stay where they are. */
function distanceText(distance: Distance | null, context: AdviceContext): string {
  switch (distance?.code) {
    case 'equal':
      return `the distances are equal within ${spanText(distance.withinCm)}`;
    case 'uncertain':
      return `${uncertainText(distance.knownCm, context)}, so no move is advised`;
    case 'too-uncertain-to-move': {
      const { pathCm, knownCm, repeatsCm } = distance;
      const when = pathCm > 0 ? 'late' : 'early';
      const doubt =
        knownCm === null
          ? `and the hits repeat only within ±${spanText(repeatsCm)}`
          : `known only to ±${spanText(knownCm)}`;
      return `B may be some ${cmText(pathCm)} ${when}, ${doubt}: too little for a move`;
    }
    case undefined:
      return '';
  }
}

/** How little is known of the distance. */
function uncertainText(knownCm: number | null, { ended }: AdviceContext): string {
  return knownCm === null
    ? `how accurate the distance is isn't known${ended ? '' : ' yet'}`
    : `the distance is known only to ±${spanText(knownCm)}`;
}

/** The sum prefers the other polarity than the first push, now; and after the move, where that can be said. */
function conflictText({ code, vote }: Conflict, context: AdviceContext): string {
  const start = `As things stand ${octaveText(vote.lowHz, vote.highHz)} is fuller ${standText(vote.prefers, context)}`;
  if (code === 'no-move') return `${start}: listen to both.`;
  return `${start}; ${code === 'changes-after-move' ? 'after the move that should change' : 'listen after the move'}.`;
}

export function apartAnswer(plan: ApartPlan, context: AdviceContext): Answer {
  const { recommended, distance, fine, conflict } = plan;
  const { flip, delayLater } = recommended;
  const polarity = fine ? FINE : polarityText(flip, context);
  const joint = polarity.includes(':') ? '; ' : ': ';
  const text = `${polarity}${joint}${becauseText(plan, context)}.${laterText(delayLater, distance, context)}`;
  const spoken = polaritySpoken(flip, context);
  if (spoken !== null) return { text, callOut: spoken };
  if (delayLater === null || conflict !== null) return { text, callOut: fine ? FINE : LEAVE };
  const { delayMs } = delayLater;
  return { text, callOut: `Leave B, delay ${delayMs > 0 ? 'A' : 'B'} ${msSpoken(delayMs)} in the mix` };
}

/** Why the polarity stays or turns. */
function becauseText({ because, conflict, gap }: ApartPlan, context: AdviceContext): string {
  const arrivals = pushText(gap.polarity, context);
  switch (because.code) {
    case 'sum': {
      const { lowHz, highHz, db } = because.vote;
      const arrival = conflict === null ? `and ${arrivals}` : 'though the arrival says the opposite';
      return `${octaveText(lowHz, highHz)} comes out ${dbText(db)} fuller that way, ${arrival}`;
    }
    case 'octave-even':
      return `${octaveText(because.lowHz, because.highHz)} is as full with either polarity, within 1 dB, and ${arrivals}`;
    case 'no-sum':
      return `${arrivals}, and no low octave carries enough in common to say otherwise`;
  }
}

/** What may be done in the mix, or why no delay is given. */
function laterText(later: DelayLater | null, distance: Distance | null, context: AdviceContext): string {
  if (later !== null) return ` ${inTheMixText(later, context)}`;
  if (distance?.code !== 'uncertain') return '';
  return ` ${capital(uncertainText(distance.knownCm, context))}, so no delay is advised.`;
}

function inTheMixText({ delayMs, pathCm, listen, sumPrefers }: DelayLater, context: AdviceContext): string {
  const which = named(delayMs > 0 ? 'A' : 'B', context);
  const when = delayMs > 0 ? 'later' : 'earlier';
  const turned = listen === null ? '' : ` and listen ${standText(listen, context)}`;
  const doubt =
    sumPrefers === null
      ? ''
      : `; the sum says otherwise: ${OWN_OCTAVE} would then be fuller ${standText(sumPrefers, context)}`;
  return `To bring the attacks together in the mix, if wanted, delay ${which} by ${msText(delayMs)}${turned} (B hears the drum ${cmText(pathCm)} ${when})${doubt}.`;
}
