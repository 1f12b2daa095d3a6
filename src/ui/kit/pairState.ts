/** How far a pair is, in words. */
import { lastTaken, type Pair } from '../../sheet/document/model';
import type { PairState } from './PairMark';

export const STATE_TEXT: Readonly<Record<PairState, string>> = {
  patch: 'being patched',
  todo: 'to do',
  begun: 'measured, not accepted',
  accepted: 'accepted',
  unsure: 'accepted as uncertain',
  left: 'left on purpose',
};

export function stateOf(pair: Pair): PairState {
  if (pair.acceptedAt === null) return pair.before === null ? 'todo' : 'begun';
  if (!lastTaken(pair)?.sure) return 'unsure';
  return pair.done?.leftOnPurpose ? 'left' : 'accepted';
}
