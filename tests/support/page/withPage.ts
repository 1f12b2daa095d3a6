/** One browser test's page. */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, inject } from 'vitest';
import { launchPage, type OpenPage, type PageOptions } from './launchPage';

const shots = fileURLToPath(new URL('../../../.cache/shots/', import.meta.url));

/** One test's page: opened, handed over, checked for errors, closed. A failing test leaves a picture in .cache/shots. */
export async function withPage(
  options: PageOptions,
  body: (open: OpenPage) => Promise<void>,
  url = inject('pageUrl'),
): Promise<void> {
  const open = await launchPage(url, options);
  try {
    await body(open);
    expect(open.errors, 'errors on the page').toEqual([]);
  } catch (error) {
    const name = (expect.getState().currentTestName ?? 'page').replace(/[^a-z0-9]+/gi, '-').slice(0, 100);
    mkdirSync(shots, { recursive: true });
    await open.page.screenshot({ path: join(shots, `${name}.png`) }).catch(() => undefined);
    if (open.errors.length > 0) console.log(`errors on the page:\n${open.errors.join('\n')}`);
    throw error;
  } finally {
    await open.browser.close();
  }
}
