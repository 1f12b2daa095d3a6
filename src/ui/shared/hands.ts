import type { Said } from '../../reading/reading';

/**
 * Does what the answer asks for send hands to a cable or a stand beside the drum? @param cautions of the advice: one that is
 * about the drummer already is enough.
 */
export function sendsHands(answer: Pick<Said, 'state' | 'reason'> | null, cautions: readonly string[]): boolean {
  if (answer === null || cautions.some((caution) => /drummer/i.test(caution))) return false;
  return answer.state === 'no-signal' || answer.reason === 'witnesses-disagree';
}
