/** The page as it keeps itself for when there is no network. */
import type { Page } from 'playwright-core';

/** Everything that was built is kept, and the page gets its files from there. */
export async function whenKept(page: Page): Promise<void> {
  await page.waitForFunction(() => navigator.serviceWorker.controller?.state === 'activated', undefined, {
    timeout: 60_000,
  });
}

/** Asks the server for a newer version, and waits until it is here whole. */
export async function fetchNewer(page: Page): Promise<void> {
  await page.evaluate(async () => {
    const registration = await navigator.serviceWorker.getRegistration();
    await registration?.update();
  });
  await page.waitForFunction(
    async () => (await navigator.serviceWorker.getRegistration())?.waiting?.state === 'installed',
    undefined,
    { timeout: 60_000 },
  );
}

/** What is kept, by path. */
export const keptFiles = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const names = await caches.keys();
    const all = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return all.flat().map(({ url }) => new URL(url).pathname.slice(1));
  });
