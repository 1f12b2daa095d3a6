/** The whole bench without a mouse: there with Tab and Enter, a lesson to its end, and back. */
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { expectOpen, grilleOf, stepBy } from '../../support/page/bench';
import { withPage } from '../../support/page/withPage';

/** Tab until it has the focus, as a person would. */
async function tabTo(page: Page, selector: string): Promise<void> {
  for (let i = 0; i < 60; i++) {
    await page.keyboard.press('Tab');
    if (await page.evaluate((it) => document.activeElement?.matches(it) ?? false, selector)) return;
  }
  throw new Error(`no Tab leads to ${selector}`);
}

/** On to the next step; the press that was used goes or is shut, so the focus goes to what is to be done. */
async function goOnByKeys(page: Page): Promise<void> {
  await tabTo(page, '[data-command="next-step"]');
  await page.keyboard.press('Enter');
  expect(await page.evaluate(() => document.activeElement?.className)).toBe('bench-step-text');
}

const fate = (page: Page, step: number, is: string): Promise<void> =>
  page.locator(`[data-lesson][data-step="${step}"][data-fate="${is}"]`).waitFor({ timeout: 5000 });

test('from the first page to a lesson’s end by keys alone', async () => {
  await withPage({ viewport: { width: 1280, height: 720 }, reducedMotion: 'reduce' }, async ({ page }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    const { keyboard } = page;
    await tabTo(page, '[data-command="open-bench"]');
    await keyboard.press('Enter');
    await page.locator('main.bench').waitFor();
    await tabTo(page, '[data-control="lesson"]');
    // the third: top and bottom
    for (let i = 0; i < 3; i++) await keyboard.press('ArrowDown');
    await page.locator('[data-lesson="top-and-bottom"]').waitFor();

    await expectOpen(page, 0);
    await tabTo(page, '[data-command="watch-hit"]');
    await keyboard.press('Enter');
    await fate(page, 0, 'done');
    // with less motion wanted the picture stands at once, and says what it shows
    expect(await page.locator('.bench-said').textContent()).toBe(
      'The head goes away from A: first push down; towards B: first push up.',
    );
    await goOnByKeys(page);
    await tabTo(page, '[data-control="invert-a"]');
    await keyboard.press('Space');
    await fate(page, 1, 'done');
    // what it says follows the switch
    expect(await page.locator('.bench-said').textContent()).toContain('away from A: first push up');
    await goOnByKeys(page);

    await tabTo(page, '.bench-mic[data-mic="a"]');
    const ring = await page
      .locator('.bench-mic[data-mic="a"] .bench-mic-reach')
      .evaluate((it) => getComputedStyle(it).stroke);
    expect(ring).not.toBe('none');
    const said = page.locator('.bench-mic[data-mic="a"]');
    expect(await said.getAttribute('aria-valuetext')).toMatch(
      /^14\.\d cm from the hit, above the drum: .* first push up$/,
    );
    await stepBy(page, -6, 'ArrowRight', 'ArrowLeft');
    await stepBy(page, 12, 'ArrowUp', 'ArrowDown');
    expect(await grilleOf(page, 'a')).toEqual({ xCm: -18, yCm: 26 });
    await fate(page, 2, 'done');
    await goOnByKeys(page);
    // through the drum, to the other side
    await tabTo(page, '.bench-mic[data-mic="b"]');
    for (let i = 0; i < 9; i++) await keyboard.press('ArrowUp');
    expect((await grilleOf(page, 'b')).yCm).toBeGreaterThan(8);
    await fate(page, 3, 'done');
    await goOnByKeys(page);
    await tabTo(page, '[data-control="invert-b"]');
    await keyboard.press('Enter');
    await fate(page, 4, 'done');
    await goOnByKeys(page);
    await page.locator('[data-lesson][data-fate="over"]').waitFor();
    await tabTo(page, '[data-command="leave"]');
    await keyboard.press('Enter');
    await page.locator('main.start').waitFor();
  });
});
