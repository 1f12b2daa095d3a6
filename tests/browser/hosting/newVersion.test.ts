/** A newer version on the server: no page that is open changes, whatever it fetches later; it starts when the only page is reloaded. */
import { expect, test } from 'vitest';
import { fetchNewer, keptFiles, whenKept } from '../../support/page/offline';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { BUILT, buildNewer, NEWER, versionServer } from '../../support/page/versionServer';
import { withPage } from '../../support/page/withPage';

test('while a meter runs nothing of a newer version is taken nor told; then it is told, and starts by a reload', {
  timeout: 300_000,
}, async () => {
  const newer = await buildNewer();
  const server = await versionServer(BUILT);
  try {
    await withPage(
      { keptOffline: true },
      async ({ page, context, errors }) => {
        const title = await page.title();
        const note = page.locator('.new-version');
        const why = () => page.evaluate(() => document.documentElement.dataset.why);
        await whenKept(page);
        await playScene(page, 'snare-top-bottom');
        const { hits } = await answerWhen(page, 'a reading', (a) => a.state === 'measured');
        const older = await keptFiles(page);

        server.serve(newer);
        await fetchNewer(page);
        // the part is fetched now, and the server has it no more
        await press(page, 'why');
        await page.locator('.why-hit').first().waitFor();
        expect(await why()).toBeUndefined();
        await page.keyboard.press('Escape');
        await answerWhen(page, 'more hits', (a) => a.hits > hits && a.run === 'running');
        expect(await note.count()).toBe(0);

        // another tab is of the same version, opened or reloaded
        const other = await context.newPage();
        other.on('pageerror', (error) => errors.push(`other tab: ${error.message}`));
        await other.goto(server.url);
        expect(await other.title()).toBe(title);
        await other.reload();
        expect(await other.title()).toBe(title);
        expect(await other.locator('.new-version').textContent()).toContain('A newer version is ready.');
        await press(page, 'call-out');
        await page.locator('.call-out').waitFor();
        await page.keyboard.press('Escape');
        await other.close();

        expect(await note.count()).toBe(0);
        await press(page, 'sources');
        await note.waitFor();
        expect(await page.title()).toBe(title);
        // a tab that was closed this moment may still count as open: then the older one comes, and tells of the newer again
        await expect
          .poll(
            async () => {
              if (await note.isVisible()) await press(page, 'reload');
              return page.title();
            },
            { timeout: 30_000, interval: 2000 },
          )
          .toMatch(new RegExp(`^${NEWER}`));
        expect(await note.count()).toBe(0);
        expect(older.filter((file) => file.includes('/Why'))).not.toEqual([]);
        await page.waitForFunction(async () => (await navigator.serviceWorker.getRegistration())?.waiting === null);
        for (const file of older.filter((it) => it.includes('/Why') && it.endsWith('.js')))
          await expect.poll(() => keptFiles(page)).not.toContain(file);

        // and it is kept like the one before
        server.serve(null);
        await context.setOffline(true);
        await page.reload();
        expect(await page.title()).toContain(NEWER);
        await playScene(page, 'snare-top-bottom');
        await answerWhen(page, 'a hit', (a) => a.hits >= 1);
        await press(page, 'why');
        await page.locator('.why-hit').first().waitFor();
        expect(await why()).toBe(NEWER);
      },
      server.url,
    );
  } finally {
    await server.close();
  }
});

test('a file that isn’t of the build makes no version; the page works as from its server, and is kept when all is right', async () => {
  const server = await versionServer(BUILT);
  server.swapped.set('example-kit.json', '{}');
  try {
    await withPage(
      { keptOffline: true },
      async ({ page, errors }) => {
        await expect
          .poll(() => server.asked.filter((file) => file === 'example-kit.json').length, { timeout: 20_000 })
          .toBe(1);
        await expect
          .poll(() => page.evaluate(async () => (await navigator.serviceWorker.getRegistrations()).length))
          .toBe(0);
        await playScene(page, 'snare-top-bottom');
        await answerWhen(page, 'a hit', (a) => a.hits >= 1);
        server.swapped.clear();
        await page.reload();
        await whenKept(page);
        errors.splice(0, errors.length, ...errors.filter((text) => !/integrity/.test(text)));
      },
      server.url,
    );
  } finally {
    await server.close();
  }
});
