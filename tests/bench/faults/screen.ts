/** What the page shows to a person, as far as the bench asks. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';

// biome-ignore-start lint/performance/useDomNodeTextContent: only what can be seen

/** Every word that can be seen, one space between two. */
export const visibleText = (page: Page): Promise<string> =>
  page.evaluate(() => document.body.innerText.replace(/\s+/g, ' '));

/** What is told on the page of something wrong, in short; for the report. */
export async function shownInstead(page: Page): Promise<string> {
  const parts = await page.evaluate(() => {
    const texts = (selector: string): string[] =>
      [...document.querySelectorAll<HTMLElement>(selector)].map((one) => one.innerText.trim()).filter(Boolean);
    const answer = document.querySelector<HTMLElement>('#answer');
    return [
      ...texts('[data-problem] p, [data-aside] p, #kit-problem, [data-trouble] p, .round-said'),
      ...texts('#answer [data-flag]'),
      ...(answer ? [`[${answer.dataset.run} ${answer.dataset.state}] ${texts('#advice')[0] ?? ''}`] : texts('h1')),
    ];
  });
  return parts.join(' · ').slice(0, 300);
}

const lines = (page: Page): Promise<string[]> =>
  page.evaluate(() => document.body.innerText.split('\n').map((line) => line.replace(/\s+/g, ' ').trim()));
/** apart from its figures, which change on a healthy page too */
const shape = (line: string): string => line.replace(/[\d.,+−±%]+/g, '#');

/** @returns the words that can be seen and weren't before: a healthy page's own words tell of no fault */
export async function newWords(page: Page): Promise<() => Promise<string>> {
  const before = new Set((await lines(page)).map(shape));
  return async () => (await lines(page)).filter((line) => !before.has(shape(line))).join(' ');
}

// biome-ignore-end lint/performance/useDomNodeTextContent: only what can be seen

/** @returns whether it came to be, within so long */
export async function until(what: () => Promise<boolean>, timeoutMs: number, everyMs = 120): Promise<boolean> {
  for (const end = Date.now() + timeoutMs; ; ) {
    if (await what().catch(() => false)) return true;
    if (Date.now() > end) return false;
    await sleep(everyMs);
  }
}

export const has = async (page: Page, selector: string): Promise<boolean> => (await page.locator(selector).count()) > 0;

export async function pressIfThere(page: Page, selector: string): Promise<boolean> {
  const found = page.locator(`${selector}:visible:enabled`).first();
  if ((await found.count()) === 0) return false;
  await found.click({ timeout: 2000 }).catch(() => undefined);
  return true;
}
