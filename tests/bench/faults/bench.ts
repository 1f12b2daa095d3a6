/** The browsers, the sound server and the pages of one run of the bench. */
import { type Browser, type BrowserContext, chromium, type Page } from 'playwright-core';
import { findBrowser } from '../../support/page/findBrowser';
import { quietFlags } from '../../support/page/launchPage';
import { servePage } from '../../support/page/servePage';
import { installSoundServer, SoundServer } from '../../support/page/soundServer';
import type { Bench } from './faultTypes';
import { pairWav } from './live/pair';

export function launch(flags: string[], env?: Record<string, string>): Promise<Browser> {
  const found = findBrowser();
  if ('problem' in found) throw new Error(found.problem);
  return chromium.launch({
    executablePath: found.path,
    headless: true,
    chromiumSandbox: process.getuid?.() !== 0,
    args: [...quietFlags(), ...flags],
    env: env ?? (process.env as Record<string, string>),
    timeout: 60_000,
  });
}

const FAKE = '--use-fake-device-for-media-stream';

/** Served and ready; `close` ends whatever was started. */
export async function openBench(): Promise<Bench & { close(): Promise<void> }> {
  const served = await servePage();
  const closing: (() => Promise<void>)[] = [() => served.close()];
  const kept = new Map<string, Promise<unknown>>();
  const lazily = <T>(name: string, start: () => Promise<T>): Promise<T> => {
    const had = kept.get(name) as Promise<T> | undefined;
    const started = had ?? start();
    kept.set(name, started);
    return started;
  };
  const browser = async (flags: string[], env?: Record<string, string>): Promise<Browser> => {
    const launched = await launch(flags, env);
    closing.push(() => launched.close());
    return launched;
  };
  return {
    url: served.url,
    fakeDevice: () => lazily('fake', () => browser([FAKE, `--use-file-for-fake-audio-capture=${pairWav()}`])),
    noDevice: () =>
      lazily('none', () =>
        browser([], { ...process.env, PULSE_SERVER: 'unix:/nonexistent/pulse', ALSA_CONFIG_PATH: '/dev/null' }),
      ),
    sound: () =>
      lazily('sound', async () => {
        const missing = installSoundServer();
        if (missing !== null) {
          console.log(`${missing}: faults of the sound server are left out`);
          return null;
        }
        const server = await SoundServer.start();
        closing.push(() => server.stop());
        return { server, browser: await browser([], server.env) };
      }),
    async close() {
      for (const end of closing.reverse()) await end();
    },
  };
}

export interface Opened {
  context: BrowserContext;
  page: Page;
  /** uncaught on the page */
  errors: string[];
}

/** A page in a profile of its own, with or without the permission to listen. The caller closes the context. */
export async function openPage(
  browser: Browser,
  url: string,
  { script, may = true, anyProgram = false }: { script?: string; may?: boolean; anyProgram?: boolean } = {},
): Promise<Opened> {
  const context = await browser.newContext({
    viewport: { width: 1280, height: 800 },
    serviceWorkers: 'block',
    bypassCSP: anyProgram,
    acceptDownloads: true,
  });
  if (may) await context.grantPermissions(['microphone']);
  const page = await context.newPage();
  // what tsx puts round functions that have a name
  await page.addInitScript('globalThis.__name ??= (named) => named;');
  if (script) await page.addInitScript(script);
  const errors: string[] = [];
  page.on('pageerror', (error) => errors.push(`uncaught: ${error.message}`));
  page.on('crash', () => errors.push('the page crashed'));
  page.setDefaultTimeout(20_000);
  await page.goto(url, { waitUntil: 'load' });
  return { context, page, errors };
}
