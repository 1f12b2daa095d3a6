/** From the first screen to a live reading of the fake device. */
import type { Page } from 'playwright-core';
import { press } from './screen';

/** As far as the browser's own prompt: the cautions are read, the input asked for. */
export async function askForInput(page: Page): Promise<void> {
  await press(page, 'connect');
  // the page is fetched when it is first wanted
  await page.locator('main.connect').waitFor();
  const acknowledge = page.locator('[data-command="acknowledge"]:visible');
  if (await acknowledge.count()) await acknowledge.first().click();
  await press(page, 'open-interface');
}

/** Input 1 as A and input 2 as B, without the spoken check. */
export async function openInterface(page: Page, kind?: string): Promise<void> {
  await askForInput(page);
  await press(page, 'skip');
  await page.locator('#answer').waitFor();
  if (kind) await page.locator('#pair-kind').selectOption(kind);
}
