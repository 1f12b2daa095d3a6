/** The hand-over on paper: one page on A4 and Letter for a usual kit, nothing smaller than 9 pt, black on white, local time. */
import { readFileSync } from 'node:fs';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { KitSheet } from '../../../src/sheet/document/model';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

async function handOver(page: Page): Promise<void> {
  await press(page, 'open-sheet');
  await press(page, 'example-kit');
  await page.locator('#kit-name').waitFor();
  await press(page, 'hand-over');
  await page.locator('.ho-page').waitFor();
}

const pagesOf = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)?.length ?? 0;

test.for(['A4', 'Letter'])('the example kit is one page of %s', async (format) => {
  await withPage({}, async ({ page }) => {
    await handOver(page);
    expect(pagesOf(await page.pdf({ format }))).toBe(1);
  });
});

/** The example kit's file with twelve pairs more, each with the readings of one that has them. */
function twentyPairs(): Buffer {
  const file = JSON.parse(readFileSync(new URL('../../../samples/kit/example-kit.json', import.meta.url), 'utf8')) as {
    kit: KitSheet;
  };
  const { pairs, microphones } = file.kit;
  const read = pairs.filter(({ before }) => before?.sure);
  const has = (p: string, q: string): boolean => pairs.some(({ a, b }) => [a, b].includes(p) && [a, b].includes(q));
  const ids = microphones.map(({ id }) => id);
  for (const [a, b] of ids.flatMap((p, i) => ids.slice(i + 1).map((q) => [p, q] as const)))
    if (pairs.length < 20 && !has(a, b))
      pairs.push({
        ...structuredClone(read[pairs.length % read.length]),
        id: `${a}-${b}`,
        a,
        b,
        after: null,
        done: null,
      } as KitSheet['pairs'][number]);
  return Buffer.from(JSON.stringify(file));
}

test('twenty pairs are two pages: the tables’ heads repeat, and no row is cut in two', async () => {
  await withPage({}, async ({ page }) => {
    await press(page, 'open-sheet');
    const file = { name: 'kit.json', mimeType: 'application/json', buffer: twentyPairs() };
    await page.locator('#kit-file').setInputFiles(file);
    await page.locator('.pair-row').nth(19).waitFor({ state: 'attached' });
    await press(page, 'hand-over');
    await page.locator('.ho-page').waitFor();
    for (const format of ['A4', 'Letter']) expect(pagesOf(await page.pdf({ format })), format).toBe(2);
    await page.emulateMedia({ media: 'print' });
    const broken = await page.locator('.ho-table').evaluateAll((tables) =>
      tables.flatMap((table) => [
        ...[...table.querySelectorAll('thead')]
          .map((head) => getComputedStyle(head).display)
          .filter((display) => display !== 'table-header-group'),
        ...[...table.querySelectorAll('tbody tr')]
          .map((row) => getComputedStyle(row).breakInside)
          .filter((breaks) => breaks !== 'avoid'),
        // what is said of a pair below its row stays with it
        ...[...table.querySelectorAll('tr.ho-line, tr.ho-more')]
          .map((row) => getComputedStyle(row.previousElementSibling as Element).breakAfter)
          .filter((breaks) => breaks !== 'avoid'),
      ]),
    );
    expect(broken).toEqual([]);
    expect(await page.locator('.ho-pairs tr.ho-line').count()).toBeGreaterThan(3);
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
