/** An action in a few words, for a list or a table: nobody is told to do it. */
import { cmText } from '../../text/length';
import { capital } from '../../text/sentence';
import { msText } from '../../text/time';
import type { AdviceContext } from '../advice';
import type { Action } from '../plan/alternatives';
import { micName } from './wording';

/** "Leave it" · "Invert B" · "B 2.5 cm closer" · "Invert B, delay A by 2.3 ms in the mix" */
export function actionText(
  { invertB, moveCm, delayMs }: Action,
  context: Pick<AdviceContext, 'aLabel' | 'bLabel'>,
): string {
  const parts: string[] = [];
  if (invertB) parts.push(`invert ${micName('B', context)}`);
  if (moveCm !== null)
    parts.push(`${invertB ? '' : `${micName('B', context)} `}${cmText(moveCm)} ${moveCm > 0 ? 'closer' : 'back'}`);
  if (delayMs !== null)
    parts.push(`delay ${micName(delayMs > 0 ? 'A' : 'B', context)} by ${msText(delayMs)} in the mix`);
  return capital(parts.length === 0 ? 'leave it' : parts.join(', '));
}
