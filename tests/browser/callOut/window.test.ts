/** The big display in a window of its own: it follows one meter, survives a reload of either, and never shows old as now. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { BrowserContext, Page } from 'playwright-core';
import { expect, test } from 'vitest';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { withPage } from '../../support/page/withPage';

const SCENE = 'snare-top-bottom';

/** Keeps everything that goes over the channel, from this page or to it. */
const LISTEN = `window.posted = [];
new BroadcastChannel('crosshead.big-display').addEventListener('message', ({ data }) => posted.push(data));`;

interface Posted {
  type: string;
  life?: string;
}
const posted = (page: Page): Promise<Posted[]> =>
  page.evaluate(() => (window as unknown as { posted: Posted[] }).posted);

async function openWindow(context: BrowserContext, page: Page, errors: string[]): Promise<Page> {
  await press(page, 'call-out');
  const [screen] = await Promise.all([context.waitForEvent('page'), press(page, 'second-screen')]);
  screen.on('pageerror', (error) => errors.push(`window: ${error.message}`));
  screen.on('console', (message) => message.type() === 'error' && errors.push(`window: ${message.text()}`));
  await screen.locator('[data-fate="following"]').waitFor();
  return screen;
}

const large = async (page: Page): Promise<string> => (await page.locator('.call-text').first().textContent()) ?? '';

async function bigDisplay(page: Page): Promise<Page> {
  await press(page, 'call-out');
  await page.locator('.call-out').waitFor();
  return page;
}

/** The two say the same, as soon as the newest has come over. */
async function expectSame(page: Page, screen: Page): Promise<void> {
  await expect.poll(async () => (await large(page)) === (await large(screen)), { timeout: 10_000 }).toBe(true);
}

test('it follows the meter, and nothing is posted while nothing changes', async () => {
  await withPage({}, async ({ page, context, errors }) => {
    await playScene(page, SCENE);
    const screen = await openWindow(context, page, errors);
    expect(await screen.evaluate(() => window.opener)).toBe(null);
    await expectSame(page, screen);
    await screen.locator('[data-action="invert-and-move"], [data-action="invert"]').waitFor({ timeout: 45_000 });
    await expectSame(page, screen);
    expect(await large(screen)).toMatch(/^Invert B/);
    expect(await screen.locator('.call-values').textContent()).toBe(
      await page.locator('.call-out .call-values').textContent(),
    );
    expect(await screen.locator('.call-window').textContent()).toContain('Follows one meter: ');

    // the page's own state comes along: flags, theme
    await press(page, 'back');
    await page.keyboard.press('h');
    await screen.locator('[data-flag="held"]').waitFor();
    await page.keyboard.press('l');
    await expect.poll(() => page.evaluate(() => document.documentElement.dataset.paper)).toBe('light');
    await expect.poll(() => screen.evaluate(() => document.documentElement.dataset.paper)).toBe('light');

    // held: nothing changes, though the drum is hit on
    await screen.evaluate(LISTEN);
    await sleep(6500);
    const types = (await posted(screen)).map(({ type }) => type).filter((type) => type !== 'ask');
    expect(types.filter((type) => type !== 'beat')).toEqual([]);
    expect(types.length).toBeGreaterThanOrEqual(2);
    expect(types.length).toBeLessThanOrEqual(4);
    await page.keyboard.press('h');
    await screen.locator('[data-flag="held"]').waitFor({ state: 'detached' });

    // once the window is closed, nothing is posted at all, whatever changes
    await screen.close();
    await sleep(8000);
    await page.evaluate(LISTEN);
    await page.keyboard.press('i');
    await sleep(2000);
    expect(await posted(page)).toEqual([]);
  });
});

test('a reload of either: the window finds its meter again', async () => {
  await withPage({}, async ({ page, context, errors }) => {
    await playScene(page, SCENE);
    const screen = await openWindow(context, page, errors);
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await screen.reload();
    await screen.locator('[data-fate="following"]').waitFor();
    await expectSame(page, screen);

    await page.reload();
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    await expect.poll(() => large(screen), { timeout: 10_000 }).toBe('Nothing to measure yet');
    await playScene(page, SCENE);
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await screen.locator('[data-action^="invert"]').waitFor({ timeout: 10_000 });
  });
});

test('the meter’s page is closed: said, what was shown is small and old, and another meter is followed only when asked', async () => {
  await withPage({}, async ({ page, context, errors }) => {
    await playScene(page, SCENE);
    const screen = await openWindow(context, page, errors);
    await screen.locator('[data-action^="invert"]').waitFor({ timeout: 45_000 });
    const call = await large(screen);
    const mine = (await screen.locator('.call-foot p').textContent()) ?? '';

    // another meter is open as well: it isn't let in
    const other = await context.newPage();
    await other.goto(page.url());
    await playScene(other, 'snare-two-tops');
    await answerWhen(other, 'a reading', (a) => a.hits >= 2);
    for (let i = 0; i < 20; i++) {
      expect(await screen.locator('.call-window').getAttribute('data-fate')).toBe('following');
      expect(await large(screen)).toMatch(/^Invert B/);
      expect(await screen.locator('.call-foot').textContent()).toContain(mine);
      await sleep(150);
    }

    await page.close();
    await screen.locator('[data-fate="closed"]').waitFor();
    expect(await large(screen)).toBe('The meter’s page is closed');
    expect(await screen.locator('.call-was').textContent()).toMatch(/^Old, from \d\d:\d\d:\d\d: /);
    expect(await screen.locator('.call-was').textContent()).toContain(call);
    expect(await screen.locator('.call-window').getAttribute('data-old')).toBe('true');
    expect(await screen.locator('.call-window').getAttribute('data-action')).toBe('');

    await press(screen, 'follow-other');
    await screen.locator('[data-fate="following"]').waitFor();
    await expect.poll(() => screen.locator('.call-foot').textContent()).not.toContain(mine);
    await expectSame(await bigDisplay(other), screen);
    await other.close();
    await screen.locator('[data-fate="closed"]').waitFor();
  });
});

test('a meter’s page that hangs: no word from it is said, and what was shown isn’t shown as now', async () => {
  await withPage({}, async ({ page, context, errors }) => {
    await playScene(page, SCENE);
    const screen = await openWindow(context, page, errors);
    await screen.locator('[data-action^="invert"]').waitFor({ timeout: 45_000 });
    void page.evaluate(() => {
      const end = Date.now() + 12_000;
      while (Date.now() < end);
    });
    await screen.locator('[data-fate="silent"]').waitFor({ timeout: 12_000 });
    expect(await large(screen)).toBe('No word from the meter');
    await screen.locator('[data-fate="following"]').waitFor({ timeout: 20_000 });
  });
});

test('a window that is opened by hand follows the first meter that answers, and says so when there is none', async () => {
  await withPage({}, async ({ page, context }) => {
    const address = `${page.url()}?big-display=`;
    await page.locator('[data-command="play-demo"]:enabled').waitFor();
    const screen = await context.newPage();
    await page.goto('about:blank');
    await screen.goto(address);
    await expect.poll(() => large(screen)).toBe('Waiting for the meter');
    await page.goto(address.split('?')[0] as string);
    await screen.locator('[data-fate="following"]').waitFor({ timeout: 10_000 });
    expect(screen.url()).toMatch(/big-display=\d+/);
  });
});

test('a browser that opens no window: said with what to do, and the meter goes on', async () => {
  await withPage({ initScript: 'window.open = () => null;' }, async ({ page }) => {
    await playScene(page, SCENE);
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    await press(page, 'call-out');
    await press(page, 'second-screen');
    const said = page.locator('.call-out [data-second-screen]');
    await expect
      .poll(() => said.textContent(), { timeout: 10_000 })
      .toBe('No window opened: allow pop-ups for this page, then press again.');
    expect(await said.getAttribute('role')).toBe('status');
    const box = await said.boundingBox();
    expect(box && box.x >= 0 && box.x + box.width <= 1280 && box.y + box.height <= 800, 'in sight').toBe(true);
    expect(await large(page)).toMatch(/^Invert B/);
    await press(page, 'back');
    await answerWhen(page, 'the meter', (a) => a.state === 'measured');
  });
});

test('full screen: on and off again; refused, that is said', async () => {
  await withPage({}, async ({ page, context, errors }) => {
    await playScene(page, SCENE);
    const screen = await openWindow(context, page, errors);
    const full = (): Promise<boolean> => screen.evaluate(() => document.fullscreenElement !== null);
    await press(screen, 'full-screen');
    await expect.poll(full).toBe(true);
    await expect.poll(() => screen.locator('[data-command="full-screen"]').textContent()).toBe('Leave full screen');
    await press(screen, 'full-screen');
    await expect.poll(full).toBe(false);
    await screen.evaluate(() => {
      document.documentElement.requestFullscreen = () => Promise.reject(new TypeError('refused'));
    });
    await press(screen, 'full-screen');
    await expect
      .poll(() => screen.locator('[data-full-screen="refused"]').textContent())
      .toBe('The browser refused full screen: try its own key, mostly F11.');
    expect(await large(screen)).not.toBe('');
  });
});
