/**
 * Which scene of the demo kit is of which pair of a sheet: the same pair kind, on the drum that is struck. A scene is of one
 * pair only, the first that it fits: two overheads at one place would contradict what they hear of each other.
 */
import type { DemoScene } from '../../audio/link';
import type { Pair } from '../../sheet/document/model';

type Played = Pick<Pair, 'id' | 'kind' | 'drum'>;

/** @returns null where the demo kit has none */
export function sceneOf(pair: Played, pairs: readonly Played[], scenes: readonly DemoScene[]): DemoScene | null {
  const scene = scenes.find((one) => fits(pair, one));
  return scene && pairOf(scene, pairs)?.id === pair.id ? scene : null;
}

/** The pair that a scene is of. */
export function pairOf<T extends Played>(scene: DemoScene, pairs: readonly T[]): T | null {
  return pairs.find((pair) => fits(pair, scene)) ?? null;
}

/** A scene may be played for a pair of its kind on its drum; one that shows a fault, too. */
export function fits({ kind, drum }: Pick<Pair, 'kind' | 'drum'>, scene: DemoScene): boolean {
  if (kind === 'other' || kind !== scene.kind) return false;
  // two overheads hear the whole kit
  const starts = kind === 'two-overheads' ? 'kit' : drum.trim().toLowerCase().replace(/\s+/g, '-');
  return scene.id.startsWith(`${starts}-`);
}
