/** Which scene of the demo kit is of which pair of a sheet: the same pair kind, on the drum that is struck. */
import type { DemoScene } from '../audio/link';
import type { Pair } from '../sheet/model';

/** @returns null where the demo kit has none */
export function sceneOf(pair: Pick<Pair, 'kind' | 'drum'>, scenes: readonly DemoScene[]): DemoScene | null {
  if (pair.kind === 'other') return null;
  const drum = pair.drum.trim().toLowerCase().replace(/\s+/g, '-');
  // two overheads hear the whole kit
  const starts = pair.kind === 'two-overheads' ? 'kit-' : `${drum}-`;
  return scenes.find(({ id, kind }) => kind === pair.kind && id.startsWith(starts)) ?? null;
}

/** The pair that a scene is of; the open one where it fits. */
export function pairOf(scene: DemoScene, pairs: readonly Pair[], open: Pair | null): Pair | null {
  const fits = (pair: Pair): boolean => sceneOf(pair, [scene]) !== null;
  return open && fits(open) ? open : (pairs.find(fits) ?? null);
}
