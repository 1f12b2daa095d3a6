/** The sentence and the call-out of a plan: what to do, all of it, and what it gains. */
import { BANDS } from '../../reading/bands';
import { bandText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { dbText, gainText } from '../../text/level';
import { capital, listText, lowerFirst } from '../../text/sentence';
import { msText } from '../../text/time';
import type { Advice, AdviceContext } from '../advice';
import { type Action, type Alternative, gainDb, LEAST_GAIN_DB } from '../plan/alternatives';
import type { AnswerPlan, Distance, FarPlan } from '../plan/planTypes';
import { actionText } from './actionText';
import { theDrumCalled } from './drumWords';
import { kindWords } from './pairKindWords';
import { micName, moveSpoken, moveText, named, octaveText, polaritySpoken, polarityText } from './wording';

export type Answer = Pick<Advice, 'text' | 'callOut'>;

const FINE = 'Polarity and timing are good: leave it';
/** longer calls are set small, and hard to say */
const CALL_LETTERS = 56;

/** Too far apart to be what the pair says: the doubt comes first, and neither a move nor a switch is advised. */
export function farAnswer({ pathCm }: FarPlan, { kind }: AdviceContext): Answer {
  return {
    text: `${cmText(pathCm)} is a long way for ${lowerFirst(kindWords(kind).title)}: check that the right two are patched.`,
    callOut: `${cmText(pathCm)} is a long way: check the patch`,
  };
}

export function answerWords(plan: AnswerPlan, context: AdviceContext): Answer {
  if (plan.fine) return { text: `${FINE}.`, callOut: FINE };
  const steps = stepsText(plan.recommended, plan.flip, context);
  const gains = gainsText(plan);
  if (plan.notes.some(({ code }) => code === 'recommended-otherwise')) return yours(plan, steps, gains, context);
  if (steps === null) return leaveWords(plan, context);
  const told = isPresent(plan.recommended) ? meterInvertText(plan) : `: ${gains}`;
  const start = plan.missing === null ? capital(steps) : `No timing here, but ${lowerFirst(steps)}`;
  return { text: `${start}${told}.`, callOut: callOutOf(plan, context) };
}

/** A person took another than what is recommended, which stands beside it (recommendedText). */
function yours(plan: AnswerPlan, steps: string | null, gains: string, context: AdviceContext): Answer {
  if (steps === null) return { text: 'Your choice: leave it.', callOut: 'Leave it' };
  const what = isPresent(plan.recommended) ? '' : `, ${gains}`;
  return { text: `Your choice: ${lowerFirst(steps)}${what}.`, callOut: callOutOf(plan, context) };
}

/** "Recommended: invert B, +2.5 dB in the drum's low octave and +3 dB overall." */
export function recommendedText(one: Alternative, context: AdviceContext): string {
  const { lowDb, allDb } = one;
  const gains =
    isPresent(one) || lowDb === null || allDb === null
      ? ''
      : `, ${gainText(lowDb)} in the drum’s low octave and ${gainText(allDb)} overall`;
  return `Recommended: ${lowerFirst(actionText(one, context))}${gains}.`;
}

const isPresent = ({ invertB, delayMs, moveCm }: Action): boolean => !invertB && delayMs === null && moveCm === null;

/** "Invert B, then bring it 2.5 cm closer to the drum, or A 2.5 cm back"; null: nothing to do. */
export function stepsText({ invertB, moveCm, delayMs }: Action, flip: boolean, context: AdviceContext): string | null {
  const steps: string[] = [];
  if (invertB || context.invertB) steps.push(polarityText(flip, context));
  if (moveCm !== null) steps.push(moveText(moveCm, context, invertB && !context.invertB));
  if (delayMs !== null) steps.push(`delay ${named(delayMs > 0 ? 'A' : 'B', context)} by ${msText(delayMs)} in the mix`);
  return steps.length === 0 ? null : steps.join(', then ');
}

function callOutOf({ recommended, flip, forDrum }: AnswerPlan, context: AdviceContext): string {
  const { moveCm, delayMs } = recommended;
  const calls: string[] = [];
  const polarity = polaritySpoken(flip, context);
  if (polarity !== null) calls.push(polarity);
  if (moveCm !== null) calls.push(moveSpoken(moveCm, context));
  if (delayMs !== null) {
    // after a switch there is no room to say where
    const where = polarity !== null && context.invertB ? '' : ' in the mix';
    calls.push(`delay ${micName(delayMs > 0 ? 'A' : 'B', context)} by ${msText(delayMs)}${where}`);
  }
  const call = capital(calls.join('. Then '));
  if (forDrum === null) return call;
  const longer = `${call}, for ${theDrumCalled(forDrum, context)}`;
  return longer.length <= CALL_LETTERS ? longer : call;
}

/** "+7.9 dB in the drum's low octave (88–177 Hz) and +6 dB overall": both, or what the plan is for where they stay as they are. */
function gainsText({ recommended, lowOctaveHz, missing }: AnswerPlan): string {
  const { lowDb, allDb, moveCm } = recommended;
  const clear = moveCm === null ? [] : clearerBands(recommended);
  const gains = [
    ...(lowDb === null || lowOctaveHz === null ? [] : [`${gainText(lowDb)} in ${octaveText(...lowOctaveHz)}`]),
    ...(allDb === null ? [] : [`${gainText(allDb)} overall`]),
  ];
  const same = Math.max(lowDb ?? 0, allDb ?? 0) < LEAST_GAIN_DB;
  const text = same && clear.length > 0 ? `${listText(clear)}, the rest unchanged` : gains.join(' and ');
  return missing === null ? text : `${text}, with the mics where they are`;
}

/** "+4 dB at 3–10 kHz" */
const clearerBands = ({ bandsDb }: Alternative): string[] =>
  BANDS.flatMap(({ lowHz, highHz }, i) => {
    const db = bandsDb[i] ?? 0;
    return db >= 1 ? [`${gainText(db)} at ${bandText(lowHz, highHz)}`] : [];
  });

function leaveWords(plan: AnswerPlan, context: AdviceContext): Answer {
  if (plan.chosen) return { text: 'Leave it as it is.', callOut: 'Leave it' };
  const { missing } = plan;
  const why = leaveBecause(plan);
  const b = micName('B', context);
  const start = missing === null ? 'Leave it' : `No timing here; leave ${b}’s polarity`;
  return {
    text: `${start}: ${why}.${distanceText(plan.distance, context)}`,
    callOut: missing === null ? 'Leave it' : `No timing here; leave ${b}’s polarity`,
  };
}

/** Why nothing is done; of two gains that aren't both known it names the one that is a loss, or the one that is missing. */
function leaveBecause({ alternatives, lowOctaveHz }: AnswerPlan): string {
  const others = alternatives.slice(1);
  if (others.some((one) => gainDb(one) !== null)) return notWorthIt(others);
  const octave = lowOctaveHz === null ? 'the drum’s low octave' : octaveText(...lowOctaveHz);
  const { lowDb = null, allDb = null } =
    others.find(({ invertB, delayMs, moveCm }) => invertB && delayMs === null && moveCm === null) ?? {};
  if (lowDb !== null && lowDb < 0) return `inverting costs ${dbText(-lowDb)} in ${octave}`;
  if (allDb !== null && allDb < 0) return `inverting costs ${dbText(-allDb)} overall`;
  const where = lowDb === null ? `in ${octave}` : 'overall';
  return `no way to tell what inverting would gain, because A and B have too little in common ${where}`;
}

/** Nothing is done but to take the meter's own invert off: fuller only where that is known, and to be heard. */
function meterInvertText(plan: AnswerPlan): string {
  const inverted = plan.alternatives.find(
    ({ invertB, delayMs, moveCm }) => invertB && delayMs === null && moveCm === null,
  );
  const { lowDb = null, allDb = null } = inverted ?? {};
  const fuller = lowDb !== null && allDb !== null && Math.max(lowDb, allDb) <= -LEAST_GAIN_DB;
  return fuller ? ': fuller that way' : `; ${leaveBecause(plan)}`;
}

/** "not worth inverting, moving or delaying" */
function notWorthIt(others: readonly Alternative[]): string {
  const moves = others.some(({ moveCm }) => moveCm !== null);
  const delays = others.some(({ delayMs }) => delayMs !== null);
  if (!moves && !delays) return 'not worth inverting';
  return `not worth inverting${moves && delays ? ', moving or delaying' : ` or ${moves ? 'moving' : 'delaying'}`}`;
}

/** What would be done about the distance, were it known. */
function distanceText(distance: Distance | null, context: AdviceContext): string {
  if (distance?.code !== 'too-uncertain-to-move') return '';
  const { pathCm } = distance;
  return ` ${micName('B', context)} may be ${cmText(pathCm)} ${pathCm > 0 ? 'too far' : 'too close'}, but that’s not certain enough to move it.`;
}
