/** A demo scene brings its own pair kind and names; everything else has the person's. */
import type { PairKindId } from '../../advice/plan/pairKinds';
import { isPairKind, type Settings } from '../settings/settings';
import type { Source } from './sourceDoor';

export function kindOf(settings: Settings, to: Source): PairKindId {
  return to.type === 'demo' && isPairKind(to.scene.kind) ? to.scene.kind : settings.ownKind();
}

/** Set kind and names for a source; a scene's are not remembered. */
export function dress(settings: Settings, to: Source): void {
  settings.recall();
  if (to.type !== 'demo') return;
  settings.setKind(kindOf(settings, to), false);
  settings.setLabel(0, to.scene.a, false);
  settings.setLabel(1, to.scene.b, false);
}
