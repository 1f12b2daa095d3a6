/** What is usual of a pair's wiring, and how the plan goes with it: the same on the meter, in the round and on the sheet. */
import type { Polarity } from '../../reading/reading';

/**
 * "These two usually start the same way. Stop the drummer and check cable and switches first; if they are right, invert B."
 * @param usual as wired, no switch pressed
 * @param then what is to be done once they are right, "invert B"; empty: nothing is known
 */
export function checkFirstText(usual: Polarity, then: string, switchKnown = true): string {
  const unless = switchKnown ? '' : ', unless a polarity switch is pressed';
  const way = `These two usually start the ${usual === 'inverted' ? 'opposite' : 'same'} way${unless}.`;
  return `${way} Stop the drummer and check cable and switches first${then && `; if they are right, ${then}`}.`;
}
