/** From page to page: each begins at its top, and the kit is left for where one came from. */
import { createEffect } from 'solid-js';
import type { Meter, Page } from '../../state/meter/meterTypes';

/** Pages of the kit: nothing is measured there, and the round's strip isn't shown. */
export const isOfKit = (page: Page): boolean => page === 'kit' || page === 'hand-over';

/** @returns goes to the kit, and from there back to where it was left; not out of the middle of telling the inputs apart */
export function createPageTurns(meter: Pick<Meter, 'page' | 'source' | 'go'>): () => void {
  /** by whatever way it was left */
  let cameFrom: Page = 'start';
  createEffect(() => {
    const page = meter.page();
    // not where the last one was scrolled to
    window.scrollTo(0, 0);
    if (!isOfKit(page)) cameFrom = page;
  });
  return () => {
    const page = meter.page();
    if (page === 'identify' || page === 'offset') return;
    const back = cameFrom === 'meter' && meter.source() === null ? 'start' : cameFrom;
    meter.go(page === 'kit' ? back : 'kit');
  };
}
