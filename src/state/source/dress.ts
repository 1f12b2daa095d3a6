/** What the two microphones of a source are: a demo scene brings it, of a recording the person was asked; live inputs have what was set last. */

import { drumIn } from '../../advice/names/guessPair';
import type { PairKindId } from '../../advice/plan/pairKinds';
import { isPairKind, type Settings } from '../settings/settings';
import { type AskedPair, UNASKED } from './askedPair';
import type { Source } from './sourceDoor';

/** Null: it brings nothing, and has what the person set last. */
function broughtBy(settings: Settings, to: Source): AskedPair | null {
  if (to.type === 'interface') return null;
  if (to.type === 'recording') return to.pair ?? UNASKED;
  if (to.type === 'take') return to.pair;
  const { kind, a, b, title } = to.scene;
  return { kind: isPairKind(kind) ? kind : settings.ownKind(), labels: [a, b], drum: drumIn(title) };
}

export function kindOf(settings: Settings, to: Source): PairKindId {
  return broughtBy(settings, to)?.kind ?? settings.ownKind();
}

/** Set kind and names for a source; what one brought is not remembered, and none of it stays for the next. */
export function dress(settings: Settings, to: Source): void {
  const pair = broughtBy(settings, to);
  settings.recall();
  if (pair === null) return;
  settings.borrow();
  settings.setKind(pair.kind);
  settings.setLabel(0, pair.labels[0]);
  settings.setLabel(1, pair.labels[1]);
  settings.setDrum(pair.drum);
}
