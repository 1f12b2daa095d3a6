/** The kit that is open while something fails: nothing of it may be lost. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import type { KitSheet } from '../../../src/sheet/document/model';
import { until } from './screen';

const example = fileURLToPath(new URL('../../../samples/kit/example-kit.json', import.meta.url));
export const KIT_TEXT = readFileSync(example, 'utf8');
export const KIT = (JSON.parse(KIT_TEXT) as { kit: KitSheet }).kit;

/** Opens it from its file, through the page; the sheet's page stays up. */
export async function openKit(page: Page, text = KIT_TEXT): Promise<void> {
  await page.locator('[data-command="open-sheet"]:visible').first().click();
  await page
    .locator('#kit-file')
    .setInputFiles({ name: 'kit.json', mimeType: 'application/json', buffer: Buffer.from(text) });
  await page.locator('#kit-name').waitFor();
  await page.locator('[data-storing="stored"]').waitFor();
}

/** All kits in the page's database. */
export const savedKits = (page: Page): Promise<KitSheet[]> =>
  page.evaluate(
    () =>
      new Promise<KitSheet[]>((resolve, reject) => {
        const asked = indexedDB.open('crosshead-kits');
        asked.onerror = () => reject(asked.error);
        asked.onsuccess = () => {
          const db = asked.result;
          if (!db.objectStoreNames.contains('kits')) {
            db.close();
            return resolve([]);
          }
          const all = db.transaction('kits').objectStore('kits').getAll();
          all.onsuccess = () => {
            db.close();
            resolve(all.result.map(({ text }: { text: string }) => JSON.parse(text).kit as KitSheet));
          };
        };
      }),
  );

const accepted = (kit: KitSheet): string[] =>
  kit.pairs
    .filter(({ acceptedAt }) => acceptedAt !== null)
    .map((pair) => sorted([pair.id, pair.acceptedAt, pair.before, pair.after, pair.done]));

/** as text, whatever the order of its fields is */
const sorted = (value: unknown): string =>
  JSON.stringify(value, (_, one) =>
    one && typeof one === 'object' && !Array.isArray(one) ? Object.fromEntries(Object.entries(one).sort()) : one,
  );

/** @returns what of the kit isn't in the database as it was */
export async function lostOf(page: Page, kit: KitSheet = KIT): Promise<string[]> {
  let there: KitSheet | undefined;
  await until(async () => {
    there = (await savedKits(page)).find(({ id }) => id === kit.id);
    return there !== undefined && accepted(kit).every((one) => accepted(there as KitSheet).includes(one));
  }, 2000);
  if (!there) return [`the kit “${kit.name}”`];
  const has = new Set(accepted(there));
  const lost = accepted(kit)
    .filter((one) => !has.has(one))
    .map((one) => `the pair ${JSON.parse(one)[0]}`);
  if (there.microphones.length < kit.microphones.length) lost.push('mics');
  return lost;
}
