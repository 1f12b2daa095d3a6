/** What doesn't stand out enough from its ground: texts, lines of the plots, shapes, frames. WCAG 2.2, 1.4.3 and 1.4.11. */
import type { Page } from 'playwright-core';
import { drawnInk, recordInk } from '../../support/look/drawnInk';
import { type Look, takeOn } from '../../support/look/look';
import { paintedInk } from '../../support/look/paintedInk';
import type { Size } from './sizes';

export const LOOKS: readonly Look[] = ['light', 'dark', 'forced dark', 'forced colours'];

const LEAST = { text: 4.5, line: 3 } as const;
/** a picture has whole levels of colour, and the edges of small type are mixed */
const ROUNDING = 0.05;

const tooLow = <T extends { kind: 'text' | 'line'; contrast: number }>(all: readonly T[]): T[] =>
  all.filter(({ kind, contrast }) => contrast < LEAST[kind] - ROUNDING);

/** @returns "dark: sum line #123456 dashed 2.1" for each that is too faint, and how many were measured */
export async function tooFaint(
  page: Page,
  reader: Page,
  sizes: readonly Size[],
): Promise<{ faint: string[]; measured: number }> {
  const faint = new Set<string>();
  let measured = 0;
  for (const look of LOOKS) {
    const end = await takeOn(page, look);
    for (const size of sizes) {
      // another size and back: what is held is drawn anew
      await page.setViewportSize({ ...size, width: size.width - 8 });
      await page.waitForTimeout(100);
      await recordInk(page, true);
      await page.setViewportSize(size);
      await page.waitForTimeout(300);
      const drawn = (await drawnInk(page)).map(({ figure, kind, colour, dashed, contrast }) => ({
        name: `${figure} ${kind} ${colour}${dashed ? ' dashed' : ''}`,
        kind,
        contrast,
      }));
      await recordInk(page, false);
      const all = [...drawn, ...(await paintedInk(page, reader))];
      measured += all.length;
      let low = tooLow(all);
      // a picture may be taken while the browser still paints: what is too faint is so twice
      if (low.length > 0) {
        await page.waitForTimeout(1500);
        const again = new Set(tooLow([...drawn, ...(await paintedInk(page, reader))]).map(({ name }) => name));
        low = low.filter(({ name }) => again.has(name));
      }
      for (const { name, contrast } of low) faint.add(`${look}: ${name} ${contrast.toFixed(1)}`);
    }
    await end();
  }
  return { faint: [...faint], measured };
}
