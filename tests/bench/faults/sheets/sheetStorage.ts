/** What may become of a browser's storage under an open kit. */
import type { Page } from 'playwright-core';
import type { Opened } from '../bench';
import { KIT, lostOf, savedKits } from '../kept';
import { until } from '../screen';
import { rename, type SheetFault, saysSaved } from './sheetTrial';

const storage = (name: string, how: string, told: SheetFault['told'], more: Partial<SheetFault>): SheetFault => ({
  sub: 'storage',
  name,
  how,
  told,
  recovers: 'it is saved again',
  ...more,
});

const origin = (page: Page): string => new URL(page.url()).origin;
async function clearSiteData({ context, page }: Opened): Promise<void> {
  const session = await context.newCDPSession(page);
  await session.send('Storage.clearDataForOrigin', { origin: origin(page), storageTypes: 'all' });
}

/** @returns "it says saved", where the kit isn't in the database */
async function falselySaved({ page }: Opened): Promise<string[]> {
  await page.waitForTimeout(2500);
  const isThere = (await lostOf(page)).length === 0;
  return !isThere && (await saysSaved(page)) ? ['“saved” of what isn’t in the database'] : [];
}

const other = async ({ context, page }: Opened): Promise<Page> => {
  const tab = await context.newPage();
  await tab.goto(page.url());
  return tab;
};
const REFUSED = /won’t save anything for this page/;
const GONE = /cleared|gone from|removed|saved (here )?again|isn’t saved/i;

/** Later puts into the database fail like this, until \`globalThis.putFails\` is false. */
const putFails = (name: string): string => `
  const { put } = IDBObjectStore.prototype;
  IDBObjectStore.prototype.put = function (...given) {
    if (globalThis.putFails) throw new DOMException('by the bench', '${name}');
    return put.apply(this, given);
  };
`;
const setPutFails = (page: Page, on: boolean): Promise<void> =>
  page.evaluate((value) => void Object.assign(globalThis, { putFails: value }), on);
const failing = (name: string, told: RegExp): SheetFault =>
  storage(`${name} at a save`, 'the database’s put throws it', told, {
    script: putFails(name),
    async strike({ page }) {
      await setPutFails(page, true);
      await rename(page, 'Not saved');
      await page.waitForTimeout(500);
      return (await saysSaved(page)) ? ['“saved” of what isn’t in the database'] : [];
    },
    mend: ({ page }) => setPutFails(page, false),
  });

export const SHEET_STORAGE: readonly SheetFault[] = [
  storage('refused', 'indexedDB.open throws SecurityError', REFUSED, {
    script: `IDBFactory.prototype.open = () => { throw new DOMException('no', 'SecurityError'); };`,
    unsaved: true,
    recovers: 'its file can be had',
  }),
  storage('no indexedDB at all', 'the browser has none', REFUSED, {
    script: `Object.defineProperty(globalThis, 'indexedDB', { value: undefined });`,
    unsaved: true,
    recovers: 'its file can be had',
  }),
  storage('no localStorage', 'it throws', 'nothing', {
    script: `for (const name of ['getItem', 'setItem', 'removeItem']) Storage.prototype[name] = () => { throw new DOMException('no', 'SecurityError'); };`,
  }),
  storage('persist() refused', 'navigator.storage.persist() gives false', 'may', {
    script: `StorageManager.prototype.persist = async () => false;`,
  }),
  storage('no storage manager', 'navigator.storage isn’t there', 'may', {
    script: `Object.defineProperty(navigator, 'storage', { value: undefined });`,
  }),
  failing('QuotaExceededError', /storage is full|disk is full/i),
  failing('UnknownError', /isn’t saved|won’t save/),
  storage('site data cleared under the open kit', 'as in the browser’s settings', GONE, {
    async strike(opened) {
      await clearSiteData(opened);
      return falselySaved(opened);
    },
    // whatever a person does next
    mend: ({ page }) => rename(page, 'Kept'),
    withinMs: 4000,
  }),
  storage('its database removed under the open kit', 'indexedDB.deleteDatabase in another tab', GONE, {
    async strike(opened) {
      const tab = await other(opened);
      await tab.evaluate(() => void indexedDB.deleteDatabase('crosshead-kits'));
      await tab.waitForTimeout(500);
      await tab.close();
      return falselySaved(opened);
    },
    mend: ({ page }) => rename(page, 'Kept'),
    withinMs: 4000,
  }),
  storage('its row removed under the open kit', 'deleted from the database in another tab', GONE, {
    async strike(opened) {
      const tab = await other(opened);
      await tab.evaluate(
        (id) =>
          new Promise<void>((resolve) => {
            const asked = indexedDB.open('crosshead-kits');
            asked.onsuccess = () => {
              const change = asked.result.transaction('kits', 'readwrite');
              change.objectStore('kits').delete(id);
              change.oncomplete = () => resolve(asked.result.close());
            };
          }),
        KIT.id,
      );
      await tab.close();
      const wrong = await falselySaved(opened);
      await rename(opened.page, 'Kept');
      return wrong;
    },
  }),
  storage('changed in another tab meanwhile', 'both tabs have it open', /changed in another tab/, {
    async strike(opened) {
      const tab = await other(opened);
      await tab.locator('[data-command="open-sheet"]:visible').first().click();
      await tab.locator('#kit-name').waitFor();
      await rename(tab, 'Theirs');
      await until(async () => (await savedKits(tab)).some(({ name }) => name === 'Theirs'), 5000);
      await tab.close();
      await rename(opened.page, 'Mine');
      return [];
    },
    mend: ({ page }) => page.locator('[data-command="keep-copy"]').click(),
  }),
  storage('a newer version of the database', 'another tab has upgraded it', /newer version of this page is open/, {
    async strike(opened) {
      const tab = await other(opened);
      await tab.evaluate(
        () =>
          new Promise<void>((resolve) => {
            const asked = indexedDB.open('crosshead-kits', 99);
            asked.onsuccess = () => resolve(asked.result.close());
          }),
      );
      await tab.close();
      await rename(opened.page, 'Not saved');
      await opened.page.waitForTimeout(500);
      return (await saysSaved(opened.page)) ? ['“saved” of what isn’t in the database'] : [];
    },
    recovers: 'its file can be had, and a reload opens it',
    unsaved: true,
  }),
  storage('loaded again in the middle of typing', 'the page is reloaded', 'nothing', {
    async strike({ page }) {
      await rename(page, 'Half typed');
      await page.waitForTimeout(100);
      await page.reload();
      await page.locator('[data-command="open-sheet"]:visible').first().click();
      await page.locator('#kit-name').waitFor();
      const name = await page.locator('#kit-name').inputValue();
      return name === 'Half typed' ? [] : [`the name is “${name}”`];
    },
  }),
];
