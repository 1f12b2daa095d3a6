/** What a held meter says where it would ask for hits: none are taken. */
import { isHalted } from '../../state/meter/meterTypes';
import type { AppContext } from './appScope';

/** Null: it isn't held, or what stands doesn't ask for hits, as where the two have nothing in common. */
export function heldCall({ meter, shown }: Pick<AppContext, 'meter' | 'shown'>): string | null {
  if (!meter.held() || isHalted(meter.run())) return null;
  const action = shown.advice()?.action ?? 'hit-more';
  if (shown.reading()?.inputs.fault) return null;
  return action === 'hit-more' || action === 'cannot-tell' ? 'Held: press Hold again to go on' : null;
}
