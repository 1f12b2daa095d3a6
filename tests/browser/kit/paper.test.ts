/** The hand-over on paper: one page on A4 and Letter for a usual kit, nothing smaller than 9 pt, black on white, local time. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

async function handOver(page: Page): Promise<void> {
  await press(page, 'open-sheet');
  await press(page, 'example-kit');
  await page.locator('#kit-name').waitFor();
  await press(page, 'hand-over');
  await page.locator('.ho-page').waitFor();
}

test.for(['A4', 'Letter'])('the example kit is one page of %s', async (format) => {
  await withPage({}, async ({ page }) => {
    await handOver(page);
    const pdf = await page.pdf({ format });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
  });
});

/** Paper's text widths, px at 96 a inch. */
const WIDTHS = [
  { paper: 'A4', width: 726 },
  { paper: 'Letter', width: 748 },
];

test.for(WIDTHS)('nothing on $paper is smaller than 9 pt, and all of it is black on white', async ({ width }) => {
  await withPage({ viewport: { width, height: 1000 } }, async ({ page }) => {
    await handOver(page);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const found = await page.locator('.ho-page').evaluate((paper) => {
      const sizes: { pt: number; text: string }[] = [];
      const inks = new Set<string>();
      const walker = document.createTreeWalker(paper, NodeFilter.SHOW_TEXT);
      for (let node = walker.nextNode(); node; node = walker.nextNode()) {
        const element = node.parentElement as Element;
        const text = node.textContent?.trim() ?? '';
        if (text === '' || element.closest('.unseen') || !element.checkVisibility()) continue;
        const style = getComputedStyle(element);
        // a drawing is drawn larger or smaller than its own units
        const scale = element instanceof SVGGraphicsElement ? (element.getScreenCTM()?.a ?? 1) : 1;
        sizes.push({ pt: (Number.parseFloat(style.fontSize) * scale * 72) / 96, text });
        inks.add(element instanceof SVGElement ? style.fill : style.color);
      }
      const smallest = sizes.toSorted((p, q) => p.pt - q.pt)[0];
      return { count: sizes.length, smallest, inks: [...inks], paper: getComputedStyle(paper).backgroundColor };
    });
    expect(found.count).toBeGreaterThan(100);
    expect(found.smallest?.pt, found.smallest?.text).toBeGreaterThanOrEqual(9 - 0.01);
    expect(found.inks).toEqual(['rgb(0, 0, 0)']);
    expect(found.paper).toBe('rgb(255, 255, 255)');
    // the drawing: a line for each pair, and the sums large enough to be read
    expect(await page.locator('.ho-drawing .drawn-line').count()).toBe(8);
    const sum = await page.locator('.ho-picture svg').first().boundingBox();
    expect(((sum?.width ?? 0) * 25.4) / 96, 'mm').toBeGreaterThanOrEqual(50);
  });
});
