/**
 * `npm run bench -- pictures [folder] [--only TEXT]`: every view of the built page at every size, light, dark, with the browser's
 * forced dark mode and with forced colours, and what is printed, as PNG and PDF into a folder (.cache/pictures unless told), to be looked at.
 */
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';
import { launchPage } from '../../support/page/launchPage';
import { servePage } from '../../support/page/servePage';
import { VIEWS, type View } from './views';

const SIZES = [
  { width: 1440, height: 900 },
  { width: 1280, height: 720 },
  { width: 1024, height: 768 },
  { width: 820, height: 1180 },
  { width: 390, height: 844 },
];
const LOOKS = ['light', 'dark', 'forced dark', 'forced colours'] as const;
type Look = (typeof LOOKS)[number];
const PAPERS = ['A4', 'Letter'] as const;
/** plots and transitions have settled, ms */
const SETTLED_MS = 250;

/** @returns ends it: a session that is closed takes the forced dark mode with it */
async function takeOn(page: Page, look: Look, media: 'screen' | 'print' = 'screen'): Promise<() => Promise<void>> {
  await page.emulateMedia({
    colorScheme: look === 'dark' ? 'dark' : 'light',
    forcedColors: look === 'forced colours' ? 'active' : 'none',
    media,
  });
  const session = await page.context().newCDPSession(page);
  await session.send('Emulation.setAutoDarkModeOverride', { enabled: look === 'forced dark' });
  // the page looks whether its colours are forced when it gets the focus
  await page.evaluate(() => window.dispatchEvent(new Event('focus')));
  return () => session.detach();
}

async function picturesOf(page: Page, view: View, folder: string): Promise<number> {
  let made = 0;
  const called = view.name.replaceAll(' ', '-');
  for (const look of LOOKS) {
    const end = await takeOn(page, look);
    for (const size of SIZES) {
      await page.setViewportSize(size);
      await page.waitForTimeout(SETTLED_MS);
      const name = `${called}_${size.width}x${size.height}_${look.replace(' ', '-')}.png`;
      await page.screenshot({ path: join(folder, name) });
      made++;
    }
    await end();
  }
  if (!view.paper) return made;
  const end = await takeOn(page, 'light', 'print');
  for (const format of PAPERS) {
    await page.pdf({ path: join(folder, `${called}_${format}.pdf`), format, preferCSSPageSize: false });
    made++;
  }
  await end();
  return made;
}

function wishOf(words: readonly string[]): { folder: string; only: string } {
  let folder = '.cache/pictures';
  let only = '';
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    if (word === '--only') only = words[++i] ?? '';
    else if (word.startsWith('-')) throw new RangeError(`pictures takes a folder and --only TEXT, not ${word}.`);
    else folder = word;
  }
  return { folder, only };
}

/** @returns what was made, and what could not be */
export async function makePictures(words: readonly string[]): Promise<string> {
  const { folder, only } = wishOf(words);
  mkdirSync(folder, { recursive: true });
  const served = await servePage();
  const lines: string[] = [];
  try {
    for (const view of VIEWS.filter(({ name }) => name.includes(only))) {
      const { browser, page } = await launchPage(served.url, { viewport: { width: 1440, height: 900 } });
      try {
        await view.open(page);
        lines.push(`${view.name}: ${await picturesOf(page, view, folder)} pictures`);
      } catch (thrown) {
        lines.push(`${view.name}: none, ${(thrown as Error).message.split('\n')[0]}`);
      } finally {
        await browser.close();
      }
    }
  } finally {
    await served.close();
  }
  return [...lines, `in ${folder}`].join('\n');
}
