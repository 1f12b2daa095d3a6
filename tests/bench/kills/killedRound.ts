/** A round over a whole kit, as a person goes through it: pair after pair, whatever the page asks next. */
import type { Page } from 'playwright-core';

/** What was accepted, and that the screen said so: the round went on to the next pair. */
export interface Shown {
  kit: string;
  pair: string;
  atMs: number;
}

interface Seen {
  pair: string;
  step: string;
  sure: boolean;
  running: boolean;
}

const look = (page: Page): Promise<Seen> =>
  page.evaluate(() => {
    const round = document.querySelector<HTMLElement>('.round')?.dataset ?? {};
    return {
      pair: round.pair ?? '',
      step: round.step ?? '',
      sure: round.sure === 'true',
      running: document.querySelector<HTMLElement>('#answer')?.dataset.run === 'running',
    };
  });

/** Pressed where they are there, the first of them; each is what a person does next on that page. */
const NEXT = [
  '.identify [data-command="skip"]',
  'main.connect [data-command="acknowledge"]',
  'main.connect [data-command="open-interface"]',
  'main.kit [data-command="begin-round"]',
  'main.kit [data-start="fourteen"]',
  'main.kit [data-command="close-kit"]',
  'main.start [data-command="open-sheet"]',
  '[data-command="recover"]',
];

async function press(page: Page, selector: string): Promise<boolean> {
  const found = page.locator(`${selector}:visible:enabled`).first();
  if ((await found.count()) === 0) return false;
  try {
    await found.click({ timeout: 1500 });
    return true;
  } catch (thrown) {
    // it went while it was being pressed; a page that is gone is told of
    if (page.isClosed() || !String(thrown).includes('Timeout')) throw thrown;
    return false;
  }
}

/** Tells at once when the round goes on to another pair with the word that the one before is accepted. */
const TELL_SHOWN = `
  let before = '';
  new MutationObserver(() => {
    const pair = document.querySelector('.round')?.dataset.pair ?? '';
    if (pair === before) return;
    const said = document.querySelector('.round-said')?.textContent ?? '';
    if (before !== '' && (pair === '' || said.includes(': accepted')))
      globalThis.shownAccepted(localStorage.getItem('crosshead.kit') ?? '', before);
    before = pair;
  }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: ['data-pair'] });
`;

/** @param onShown each pair that the page shows as accepted, when it does */
export async function watchShown(page: Page, onShown: (one: Shown) => void): Promise<void> {
  await page.exposeFunction('shownAccepted', (kit: string, pair: string) => onShown({ kit, pair, atMs: Date.now() }));
  await page.addInitScript(TELL_SHOWN);
}

/** One thing after the other until the page is gone. Throws what the browser says then. */
export async function goOn(page: Page): Promise<never> {
  for (;;) {
    const { pair, step, sure, running } = await look(page);
    if (await press(page, '[data-command="leave-accept"]')) continue;
    if (pair !== '' && running && (step === 'patch' || sure)) await press(page, '.round [data-command="accept"]');
    else if (pair !== '' && !running && (await press(page, 'main.start [data-command="connect"]'))) continue;
    else
      for (const selector of NEXT) {
        if (await press(page, selector)) break;
      }
    await page.waitForTimeout(40);
  }
}
