import { useApp } from '../shared/appScope';
import type { KitPart } from './kitPart';

/** For the kit's own screens, which are shown only once its part is here. */
export function useKit(): KitPart {
  const kit = useApp().parts.kit.here();
  if (!kit) throw new Error('useKit must run once the kit’s part is here');
  return kit;
}
