/** What the blind round says. */
import { pathCm } from '../../reading/acoustics';
import { beyondLuck, chanceOf } from '../../teaching/byEar/luck';
import type { Answer, Question } from '../../teaching/byEar/round';
import { hzText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { percentText } from '../../text/number';
import { msText } from '../../text/time';

export const questionText = ({ kind }: Question): string =>
  kind === 'polarity'
    ? 'The two are lined up in time. Is B inverted against A?'
    : 'Polarity is right in both. In which one are A and B lined up in time, X or Y?';

export const ANSWER_WORDS: Readonly<Record<Answer, string>> = {
  inverted: 'B is inverted',
  same: 'B isn’t inverted',
  x: 'X is lined up',
  y: 'Y is lined up',
};

/** What it was, and what that does. */
export function revealText(question: Question, temperatureC: number): string {
  if (question.kind === 'polarity')
    return question.truth === 'inverted'
      ? 'B was inverted: what both hear alike cancels, the lows most.'
      : 'B wasn’t inverted: what both hear alike adds up, the lows most.';
  const ms = question.apartMs;
  const cm = cmText(pathCm(ms / 1000, temperatureC));
  return `${question.truth.toUpperCase()} was lined up. In the other one B comes ${msText(ms)} later, as if ${cm} further away: the first notch lies at ${hzText(500 / ms)}.`;
}

export function scoreText(right: number, of: number): string {
  if (of === 0) return 'Guessing gets half of them.';
  return `${right} of ${of} right. Guessing gets ${of % 2 === 0 ? of / 2 : `${Math.floor(of / 2)} or ${Math.ceil(of / 2)}`}; ${luckText(right, of)}`;
}

function luckText(right: number, of: number): string {
  const chance = chanceOf(right, of);
  if (right === 0) return 'it can’t do worse.';
  if (chance > 0.4) return `this well or better in ${percentText(chance)} of rounds.`;
  return `this well or better once in ${Math.round(1 / chance)} rounds.`;
}

/** Before a score is told for skill. */
export function beyondText(of: number): string {
  const least = beyondLuck(of);
  return least === null
    ? 'Too few answers yet to tell an ear from luck.'
    : `From ${least} of ${of} on it’s hardly luck (less than once in 20 rounds).`;
}
