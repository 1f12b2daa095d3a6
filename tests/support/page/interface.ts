/** From the first screen to a live reading of the fake device. */
import type { Page } from 'playwright-core';
import { press } from './screen';

export interface Wanted {
  /** a device by its name; else the system's default, of which the fake devices don't tell which one it is */
  named?: boolean;
}

/** As far as the browser's own prompt: the cautions are read, the input asked for. */
export async function askForInput(page: Page, { named = false }: Wanted = {}): Promise<void> {
  if (named) await openOnce(page);
  await press(page, 'connect');
  // the page is fetched when it is first wanted
  await page.locator('main.connect').waitFor();
  const acknowledge = page.locator('[data-command="acknowledge"]:visible');
  if (await acknowledge.count()) await acknowledge.first().click();
  if (named) await page.locator('#device option').nth(1).waitFor({ state: 'attached' });
  if (named) await page.locator('#device').selectOption({ index: 1 });
  await press(page, 'open-interface');
}

/** A browser tells the names of its inputs once one was open. */
const openOnce = (page: Page): Promise<void> =>
  page.evaluate(async () => {
    const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    for (const track of stream.getTracks()) track.stop();
  });

/** Input 1 as A and input 2 as B, without the spoken check. */
export async function openInterface(page: Page, kind?: string, wanted: Wanted = {}): Promise<void> {
  await askForInput(page, wanted);
  await press(page, 'skip');
  await page.locator('#answer').waitFor();
  if (kind) await page.locator('#pair-kind').selectOption(kind);
}
