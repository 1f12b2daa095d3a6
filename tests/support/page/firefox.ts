/** The built page in Firefox, driven by WebDriver BiDi. */
import puppeteer, { type Page } from 'puppeteer-core';
import { expect, inject } from 'vitest';
import { findFirefox } from './firefoxProgram';

export interface FirefoxOptions {
  /** environment of a sound server of the test's own; unless told there is no sound output and no input at all */
  soundEnv?: Record<string, string>;
}

/** One test's page in a fresh profile: opened, handed over, checked for errors, closed. */
export async function withFirefox(options: FirefoxOptions, body: (page: Page) => Promise<void>): Promise<void> {
  const found = findFirefox();
  if (!found) throw new Error('no Firefox');
  const noSound = { PULSE_SERVER: 'unix:/nonexistent/pulse', ALSA_CONFIG_PATH: '/dev/null' };
  const browser = await puppeteer.launch({
    browser: 'firefox',
    executablePath: found.path,
    headless: true,
    env: { ...process.env, ...(options.soundEnv ?? noSound) } as Record<string, string>,
    extraPrefsFirefox: { 'media.navigator.permission.disabled': true },
    timeout: 90_000,
  });
  const errors: string[] = [];
  try {
    const page = await browser.newPage();
    page.on('console', (message) => {
      if (message.type() === 'error') errors.push(message.text());
    });
    page.on('pageerror', (thrown) => errors.push(String(thrown)));
    await page.setViewport({ width: 1280, height: 720 });
    await page.goto(inject('pageUrl'));
    await body(page);
    expect(errors, 'errors on the page').toEqual([]);
  } finally {
    await browser.close();
  }
}

/** A press on what is seen and can be pressed: a real one, which the browser takes for a person's. */
export async function pressIn(page: Page, command: string): Promise<void> {
  const button = await page.waitForSelector(`[data-command="${command}"]:not(:disabled)`, {
    visible: true,
    timeout: 30_000,
  });
  await button?.click();
}

export const textIn = (page: Page, selector: string): Promise<string> =>
  page.$eval(selector, (element) => (element.textContent ?? '').trim());
