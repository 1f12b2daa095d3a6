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
  const isHere = (): Promise<boolean> =>
    page.evaluate(async () => (await navigator.serviceWorker.getRegistration())?.waiting?.state === 'installed');
  // a browser may put an update off, or let one go: it is asked for again
  for (const end = Date.now() + 90_000; !(await isHere()); ) {
    if (Date.now() > end) throw new Error('waited 90 s for a newer version');
    await page.evaluate(async () => {
      const registration = await navigator.serviceWorker.getRegistration();
      if (!registration?.installing) registration?.update().catch(() => undefined);
      await new Promise((resolve) => setTimeout(resolve, 1000));
    });
  }
}

/** What is kept, by path. */
export const keptFiles = (page: Page): Promise<string[]> =>
  page.evaluate(async () => {
    const names = await caches.keys();
    const all = await Promise.all(names.map(async (name) => (await caches.open(name)).keys()));
    return all.flat().map(({ url }) => new URL(url).pathname.slice(1));
  });
