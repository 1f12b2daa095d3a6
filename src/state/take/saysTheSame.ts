/** Whether a take says of a pair what that pair's reading says by itself: all tracks together may have taken it back. */
import { answerOf, type Reading } from '../../reading/reading';
import type { PairReport } from '../../take/model';

export function saysTheSame(
  { state, polarity, delaySamples }: Pick<PairReport, 'state' | 'polarity' | 'delaySamples'>,
  reading: Reading,
): boolean {
  const answer = answerOf(reading);
  if (state !== answer.state || polarity !== answer.polarity) return false;
  const own = answer.state === 'measured' ? answer.delaySamples : null;
  return own === null || delaySamples === null ? own === delaySamples : Math.abs(own - delaySamples) < SAME_SAMPLES;
}
/** the report is cut to nine digits */
const SAME_SAMPLES = 1e-3;
