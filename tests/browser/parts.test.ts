/** Parts of the page that are fetched when they are wanted: where the server is gone that is said, and tried again; nothing is lost. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { answerWhen, playScene, press, problemSentence } from '../support/page/screen';
import { withPage } from '../support/page/withPage';

const RECORDING = fileURLToPath(new URL('../../samples/kit/snare-top-bottom.wav', import.meta.url));
const SAYS = /could not be loaded from this page’s server; check that the server is running, then try again\./;

/** The server gives none of these any more, until the function that is returned is called. */
async function stopServing(page: Page, what: string): Promise<() => Promise<void>> {
  await page.route(what, (route) => route.abort());
  return () => page.unroute(what);
}

/** What was refused on purpose is no error of the page; whatever else went wrong is. */
function forgetRefused(errors: string[]): void {
  const others = errors.filter((text) => !/request failed:.*\/assets\/|console: Failed to load resource/.test(text));
  errors.splice(0, errors.length, ...others);
}

const focused = (page: Page, selector: string): Promise<boolean> =>
  page.evaluate((it) => document.activeElement?.closest(it) !== null && document.activeElement !== null, selector);

/** Refused, refused once more, then there. */
async function refusedThenHere(page: Page, open: () => Promise<void>, here: string): Promise<void> {
  const serve = await stopServing(page, '**/assets/**');
  await open();
  expect(await problemSentence(page, 'part-missing')).toMatch(SAYS);
  await press(page, 'fetch-part');
  await page.locator('[data-command="fetch-part"]', { hasText: 'Try again' }).waitFor();
  expect(await focused(page, '[data-command="fetch-part"]')).toBe(true);
  await serve();
  await press(page, 'fetch-part');
  await page.locator(here).first().waitFor();
  expect(await page.locator('[data-problem="part-missing"]').count()).toBe(0);
}

test('pages and views that can’t be fetched: said, tried again, and the way back stays', async () => {
  await withPage({}, async ({ page, errors }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await refusedThenHere(page, () => press(page, 'connect'), 'main.connect');
    expect(await focused(page, 'main.connect')).toBe(true);
    await press(page, 'leave');
    await refusedThenHere(page, () => press(page, 'help'), 'dialog[open]');
    await press(page, 'close-help');
    await refusedThenHere(
      page,
      () => page.locator('#recording-files').first().setInputFiles(RECORDING),
      'main.recording',
    );
    forgetRefused(errors);
  });
});

test('help that can’t be fetched: the cautions are shown all the same, Escape closes it', async () => {
  await withPage({}, async ({ page, errors }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await press(page, 'acknowledge');
    await stopServing(page, '**/assets/**');
    await page.locator('[data-command="help"]').focus();
    await page.keyboard.press('Enter');
    await problemSentence(page, 'part-missing');
    expect(await page.locator('.meanwhile-over').textContent()).toContain('Wear hearing protection');
    await page.keyboard.press('Escape');
    await page.locator('.meanwhile-over').waitFor({ state: 'detached' });
    expect(await focused(page, '[data-command="help"]')).toBe(true);
    forgetRefused(errors);
  });
});

test('over the meter: it goes on reading meanwhile, and the focus comes back', async () => {
  await withPage({}, async ({ page, errors }) => {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, 'hits', (a) => a.hits >= 2);
    for (const [command, here] of [
      ['why', '.why'],
      ['try', '.try'],
      ['call-out', '.call-out'],
    ] as const) {
      const open = async (): Promise<void> => {
        await page.locator(`[data-command="${command}"]`).first().focus();
        await page.keyboard.press('Enter');
      };
      await refusedThenHere(page, open, here);
      expect(await focused(page, here)).toBe(true);
      await page.keyboard.press('Escape');
      await page.locator(here).waitFor({ state: 'detached' });
      expect(await focused(page, `[data-command="${command}"]`), command).toBe(true);
    }
    const { hits } = await answerWhen(page, 'a reading', (a) => a.run === 'running' && a.state === 'measured');
    await answerWhen(page, 'more hits', (a) => a.hits > hits);
    forgetRefused(errors);
  });
});

test('the kit sheet and the hand-over that can’t be fetched; a stylesheet alone that can’t', async () => {
  await withPage({}, async ({ page, errors }) => {
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await refusedThenHere(page, () => press(page, 'open-sheet'), 'main.kit');
    expect(await focused(page, 'main.kit')).toBe(true);
    await page.locator('[data-start="four"]').click();
    await page.locator('#kit-name').waitFor();
    const serve = await stopServing(page, '**/assets/*.css');
    await press(page, 'hand-over');
    expect(await problemSentence(page, 'part-missing')).toMatch(SAYS);
    await serve();
    await press(page, 'fetch-part');
    await page.locator('.ho-page').waitFor();
    const paper = await page.locator('.ho-page').evaluate((it) => getComputedStyle(it).backgroundColor);
    expect(paper).toBe('rgb(255, 255, 255)');
    forgetRefused(errors);
  });
});

test('a kit that was left open and can’t be fetched: said on the first page, and it is there when tried again', async () => {
  await withPage({}, async ({ page, errors }) => {
    await press(page, 'open-sheet');
    await page.locator('[data-start="four"]').click();
    await page.locator('#kit-name').fill('Boat house');
    await page.locator('#kit-name').press('Tab');
    await page.locator('[data-storing="stored"]').waitFor();
    const serve = await stopServing(page, '**/assets/openKit*.js');
    await page.reload();
    expect(await problemSentence(page, 'part-missing')).toMatch(/^The kit sheet could not be loaded/);
    // everything else works
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await serve();
    await press(page, 'fetch-part');
    await page.locator('[data-command="open-sheet"]', { hasText: 'Kit sheet: Boat house' }).waitFor();
    forgetRefused(errors);
  });
});

test('what reads live inputs can’t be fetched: said as any other problem of a source, and tried again', async () => {
  await withPage({}, async ({ page, errors }) => {
    await press(page, 'acknowledge');
    const serve = await stopServing(page, '**/assets/interfaceInput*.js');
    await press(page, 'connect');
    await page.locator('main.connect').waitFor();
    await press(page, 'open-interface');
    expect(await problemSentence(page, 'part-missing')).toMatch(SAYS);
    await page.locator('[data-command="recover"]').waitFor();
    await serve();
    await press(page, 'recover');
    await page.locator('main.identify').waitFor();
    forgetRefused(errors);
  });
});
