/** With the server gone and the network off: the page starts, every part of it opens, examples and live inputs are measured. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from 'vitest';
import { askForInput } from '../../support/page/interface';
import { keptFiles, whenKept } from '../../support/page/offline';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { BUILT, versionServer } from '../../support/page/versionServer';
import { withPage } from '../../support/page/withPage';

const built = (): string[] =>
  readdirSync(BUILT, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name).slice(join(BUILT, '/').length))
    .sort();

test('all that was built is kept; off the network the page starts, opens every part and measures, and asks nobody', async () => {
  const server = await versionServer(BUILT);
  try {
    await withPage(
      { keptOffline: true },
      async ({ page, context }) => {
        await whenKept(page);
        expect((await keptFiles(page)).sort()).toEqual(built().filter((file) => file !== 'serviceWorker.js'));
        expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);

        server.serve(null);
        await context.setOffline(true);
        const before = server.asked.length;
        await page.reload();
        // as it came from the server: isolated, under its policy
        expect(await page.evaluate(() => crossOriginIsolated)).toBe(true);
        await playScene(page, 'snare-top-bottom');
        const read = await answerWhen(page, 'a reading', (a) => a.state === 'measured');
        expect(read.polarity).toBe('inverted');
        for (const [command, here] of [
          ['why', '.why'],
          ['try', '.try'],
          ['call-out', '.call-out'],
        ] as const) {
          await press(page, command);
          await page.locator(here).waitFor();
          await page.keyboard.press('Escape');
        }
        await press(page, 'help');
        await page.locator('dialog[open]').waitFor();
        await press(page, 'close-help');
        await press(page, 'sources');
        await playScene(page, 'kick-inside-outside');
        await answerWhen(page, 'a reading of another example', (a) => a.state === 'measured' && a.polarity === 'same');
        await press(page, 'sources');
        await press(page, 'open-bench');
        await page.locator('main.bench').waitFor();
        await press(page, 'leave');
        await press(page, 'open-sheet');
        await press(page, 'example-kit');
        await page.locator('#kit-name').waitFor();
        await press(page, 'hand-over');
        await page.locator('.ho-page').waitFor();
        await press(page, 'kit');
        await press(page, 'kit');
        await askForInput(page);
        await page.locator('main.identify').waitFor();
        expect(server.asked.slice(before)).toEqual([]);
      },
      server.url,
    );
  } finally {
    await server.close();
  }
});

test('a browser can install it', async () => {
  const server = await versionServer(BUILT);
  try {
    await withPage(
      { keptOffline: true },
      async ({ page, context }) => {
        await whenKept(page);
        const devTools = await context.newCDPSession(page);
        const manifest = await devTools.send('Page.getAppManifest');
        expect(manifest.errors).toEqual([]);
        const { name, icons, display } = JSON.parse(manifest.data as string) as {
          name: string;
          display: string;
          icons: { src: string; sizes: string }[];
        };
        expect([name, display]).toEqual(['Crosshead', 'standalone']);
        for (const { src, sizes } of icons) {
          const size = await page.evaluate(async (address) => {
            const image = new Image();
            image.src = address;
            await image.decode();
            return `${image.naturalWidth}x${image.naturalHeight}`;
          }, src);
          if (sizes !== 'any') expect(size, src).toBe(sizes);
        }
        const { installabilityErrors } = await devTools.send('Page.getInstallabilityErrors');
        // a private window, as every test's is, installs nothing
        expect(installabilityErrors.map(({ errorId }) => errorId).filter((it) => it !== 'in-incognito')).toEqual([]);
      },
      server.url,
    );
  } finally {
    await server.close();
  }
});
