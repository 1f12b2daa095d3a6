/** How an answer is said: the switch that is really pressed, where the sum is fuller, who moves which way. */
import type { Polarity } from '../../reading/reading';
import { bandText } from '../../text/frequency';
import { cmText, type MicNames } from '../../text/length';
import { dbText } from '../../text/level';
import { calledName, letterName } from '../../text/names';
import type { AdviceContext } from '../advice';
import type { SumVote } from '../plan/votes';

/** "Snare bottom", or "B" where it has no name that can be said: for a call, a list, wherever the letter isn't looked for. */
export function micName(letter: 'A' | 'B', context: Pick<AdviceContext, 'aLabel' | 'bLabel'>): string {
  return calledName(letter, letter === 'A' ? context.aLabel : context.bLabel);
}

/** Both of them. */
export const micNames = (context: Pick<AdviceContext, 'aLabel' | 'bLabel'>): MicNames => ({
  a: micName('A', context),
  b: micName('B', context),
});

/** "B (Snare bottom)", or "B": for the sentence, where the letter is needed to find it on the screen. */
export function named(letter: 'A' | 'B', context: Pick<AdviceContext, 'aLabel' | 'bLabel'>): string {
  return letterName(letter, letter === 'A' ? context.aLabel : context.bLabel);
}

/** Where a sum is fuller: with the meter's own invert on, in its terms, since B's real switch may be pressed or not. */
export function standText(prefers: SumVote['prefers'], context: AdviceContext): string {
  if (context.invertB) return prefers === 'as-is' ? 'with “Invert B here” on' : 'with “Invert B here” off';
  const b = micName('B', context);
  return prefers === 'as-is' ? `with ${b} as it is` : `with ${b} inverted`;
}

/** "B starts the same way as A", of what the inputs carry: the meter's own invert is taken out, and that is said. */
export function pushText(polarity: Polarity, context: AdviceContext): string {
  const same = (polarity === 'same') !== context.invertB;
  const { a, b } = micNames(context);
  const push = `${b} starts the ${same ? 'same way as' : 'opposite way to'} ${a}`;
  return context.invertB ? `with “Invert B here” off, ${push}` : push;
}

/** "the drum’s low octave (60–120 Hz)": never "the low end", for a row of the bands is named low and lies elsewhere */
export function octaveText(lowHz: number, highHz: number): string {
  return `the drum’s low octave (${bandText(lowHz, highHz)})`;
}

/** "the drum’s low octave (60–120 Hz) is 3.5 dB fuller with B inverted" */
export function voteText(vote: SumVote, context: AdviceContext): string {
  return `${octaveText(vote.lowHz, vote.highHz)} is ${dbText(vote.db)} fuller ${standText(vote.prefers, context)}`;
}

/**
 * What to do with B's polarity; `flip`: B must be turned over from what the meter shows. With the meter's own invert on it
 * comes off in either case, so that doing what is said leads to a reading that asks for nothing more.
 */
export function polarityText(flip: boolean, context: AdviceContext): string {
  const b = named('B', context);
  if (!context.invertB) return flip ? `Invert ${b}` : `Leave ${micName('B', context)}’s polarity alone`;
  return flip
    ? 'Switch “Invert B here” off'
    : `Mute ${micName('B', context)}, press its polarity switch, unmute, then switch “Invert B here” off`;
}

/** The same, to be said over talkback; null: nothing to do. */
export function polaritySpoken(flip: boolean, context: AdviceContext): string | null {
  const b = micName('B', context);
  if (context.invertB) return flip ? polarityText(flip, context) : `Press ${b}’s polarity switch, “Invert B here” off`;
  return flip ? `Invert ${b}` : null;
}

/** "bring B 3 cm closer to the drum, or A 3 cm back"; `pronoun`: B was just named. */
export function moveText(moveCm: number, context: AdviceContext, pronoun: boolean): string {
  const b = pronoun ? 'it' : named('B', context);
  const a = named('A', context);
  const cm = cmText(moveCm);
  return moveCm > 0
    ? `bring ${b} ${cm} closer to the drum, or ${a} ${cm} back`
    : `take ${b} ${cm} back from the drum, or bring ${a} ${cm} closer`;
}

/** "Snare bottom: 3 cm closer" */
export function moveSpoken(moveCm: number, context: AdviceContext): string {
  return `${micName('B', context)}: ${cmText(moveCm)} ${moveCm > 0 ? 'closer' : 'back'}`;
}
