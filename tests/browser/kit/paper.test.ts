/** The hand-over on paper: one page on A4 and Letter for a usual kit, nothing smaller than 9 pt, black on white, local time. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import type { KitSheet, Pair } from '../../../src/sheet/document/model';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';
import { exampleKit, fourteenMics, kitFile } from '../../support/readings/fourteenMics';

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

async function handOverOf(page: Page, sheet: KitSheet): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator('#kit-file').setInputFiles(kitFile(sheet));
  await page
    .locator('.pair-row')
    .nth(sheet.pairs.length - 1)
    .waitFor({ state: 'attached' });
  await press(page, 'hand-over');
  await page.locator('.ho-page').waitFor();
}

test('fourteen mics with eight pairs measured are one page of either paper, what was found on the drawing', async () => {
  const sheet = fourteenMics();
  expect(sheet.pairs.filter(({ before }) => before !== null)).toHaveLength(8);
  await withPage({}, async ({ page }) => {
    await handOverOf(page, sheet);
    for (const format of ['A4', 'Letter']) expect(pagesOf(await page.pdf({ format })), format).toBe(1);
    expect(await page.locator('.ho-drawing .drawn-line').count()).toBe(8);
    // one at most has no room, and the key says where it is told
    const marks = await page.locator('.ho-drawing .drawn-mark').count();
    expect(marks).toBeGreaterThanOrEqual(7);
    expect((await page.locator('.ho-drawing-key').textContent())?.includes('Others: in the table.')).toBe(marks < 8);
    // a page that a browser darkens and a person wants light is turned round on the screen, never on paper
    await page.evaluate(() => Object.assign(document.documentElement.dataset, { darkened: 'true', turned: 'true' }));
    await page.emulateMedia({ media: 'print' });
    const painted = await page
      .locator('.ho-drawing .drawn-line')
      .first()
      .evaluate((line) => [getComputedStyle(document.documentElement).filter, getComputedStyle(line).stroke]);
    expect(painted).toEqual(['none', 'rgb(0, 0, 0)']);
  });
});

/** The example kit with twelve pairs more, each with the reading of the two snare tops on a cymbal of its own: nothing contradicts. */
function twentyPairs(): KitSheet {
  const kit = exampleKit();
  const tops = kit.pairs.find(({ kind }) => kind === 'same-side') as Pair;
  const ids = kit.microphones.map(({ id }) => id);
  const has = (p: string, q: string): boolean => kit.pairs.some(({ a, b }) => [a, b].includes(p) && [a, b].includes(q));
  const more = ids
    .flatMap((a, i) => ids.slice(i + 1).map((b) => ({ a, b })))
    .filter(({ a, b }) => !has(a, b))
    .slice(0, 20 - kit.pairs.length)
    .map(({ a, b }, i): Pair => ({ ...tops, id: `more-${i}`, a, b, kind: 'other', drum: `cymbal ${i + 1}` }));
  return { ...kit, pairs: [...kit.pairs, ...more] };
}

test('twenty pairs are two pages: the tables’ heads repeat, and no row is cut in two', async () => {
  await withPage({}, async ({ page }) => {
    await handOverOf(page, twentyPairs());
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
    expect(await page.locator('.ho-pairs tr.ho-line').count()).toBeGreaterThan(1);
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
