/** The browser's own storage under an open kit: asked to keep it, full, and cleared. Only a real one does these. */
import type { CDPSession, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

async function newKit(page: Page): Promise<void> {
  await press(page, 'open-sheet');
  await page.locator('[data-start="four"]').click();
  await page.locator('[data-storing="stored"]').waitFor();
}

const name = async (page: Page, text: string): Promise<void> => {
  await page.locator('#kit-name').fill(text);
  await page.locator('#kit-name').press('Tab');
};
const line = (page: Page) => page.locator('.store-line');
const note = (page: Page) => page.locator('[data-trouble="store"]');

async function storage(page: Page): Promise<{ session: CDPSession; origin: string }> {
  const session = await page.context().newCDPSession(page);
  return { session, origin: new URL(page.url()).origin };
}

test('the browser is asked to keep what was measured, and its answer is shown', async () => {
  await withPage({}, async ({ page }) => {
    await page.evaluate(() => {
      const { storage: manager } = navigator;
      const persist = manager.persist.bind(manager);
      manager.persist = () => {
        document.documentElement.dataset.asked = String(Number(document.documentElement.dataset.asked ?? 0) + 1);
        return persist();
      };
    });
    await newKit(page);
    // nothing was measured: nobody is asked
    expect(await page.evaluate(() => document.documentElement.dataset.asked)).toBeUndefined();
    await press(page, 'close-kit');
    await press(page, 'example-kit');
    await page.locator('.store-line:not([data-lasting="unknown"])').waitFor();
    expect(await page.evaluate(() => document.documentElement.dataset.asked)).toBe('1');
    const answered = await page.evaluate(() => navigator.storage.persisted());
    const text = (await line(page).textContent()) ?? '';
    if (answered) expect(text).toContain('The browser keeps it until you remove it.');
    else expect(text).toContain('The browser may clear it when space runs short: export the file.');
  });
});

test('a full disk is called full, nothing is said to be saved, and with room again it is saved', async () => {
  await withPage({}, async ({ page }) => {
    const { session, origin } = await storage(page);
    await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
    await press(page, 'open-sheet');
    await page.locator('[data-start="four"]').click();
    await page.locator('[data-storing="not-stored"]').waitFor();
    expect(await note(page).textContent()).toContain('The browser’s storage is full: the last change isn’t saved.');
    expect(await line(page).textContent()).toBe('Not saved.');
    await session.send('Storage.overrideQuotaForOrigin', { origin });
    await name(page, 'Mill');
    await page.locator('[data-storing="stored"]').waitFor();
    await note(page).waitFor({ state: 'detached' });
    await page.reload();
    await press(page, 'open-sheet');
    await page.locator('#kit-name').waitFor();
    expect(await page.locator('#kit-name').inputValue()).toBe('Mill');
  });
});

test('site data cleared under the open kit: said within a moment, saved again, there after a reload', async () => {
  await withPage({}, async ({ page }) => {
    await newKit(page);
    await name(page, 'Boat house');
    await page.locator('[data-storing="stored"]').waitFor();
    const { session, origin } = await storage(page);
    await session.send('Storage.clearDataForOrigin', { origin, storageTypes: 'all' });
    await note(page).waitFor();
    expect(await note(page).textContent()).toContain('was cleared. The open kit is being saved again');
    await page.locator('[data-storing="stored"]').waitFor();
    await page.reload();
    await press(page, 'open-sheet');
    await page.locator('#kit-name').waitFor();
    expect(await page.locator('#kit-name').inputValue()).toBe('Boat house');
  });
});
