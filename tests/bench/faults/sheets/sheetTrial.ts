/** A kit sheet that is damaged, or can't be saved: what is told, and whether the kit that is open stays whole. */
import type { Page } from 'playwright-core';
import { type Opened, openPage } from '../bench';
import type { Bench, Fault, Outcome, Told } from '../faultTypes';
import { KIT, lostOf, openKit, savedKits } from '../kept';
import { has, newWords, shownInstead, until, visibleText } from '../screen';

export interface SheetFault {
  sub: string;
  name: string;
  how: string;
  told: Told;
  recovers: string;
  /** a file that isn't a sheet that could be true: it must not be opened */
  file?: () => string;
  /** runs on the page before anything of its own */
  script?: string;
  /** with the kit open and saved; @returns what is wrong on the screen, e.g. "saved" where it isn't */
  strike?(opened: Opened, bench: Bench): Promise<string[] | undefined>;
  /** what ends it, and what a person does then */
  mend?(opened: Opened): Promise<unknown>;
  /** the kit can't be saved at all: what counts is that this is told, and its file can be had */
  unsaved?: boolean;
  withinMs?: number;
}

export const sheetFaults = (all: readonly SheetFault[]): Fault[] =>
  all.map((one) => ({
    kind: 'sheets',
    sub: one.sub,
    name: one.name,
    how: one.how,
    told: one.told,
    recovers: one.recovers,
    run: (bench) => trySheet(one, bench),
  }));

/** Another name for the kit that is open: a change that has to be saved. */
export async function rename(page: Page, name: string): Promise<void> {
  await page.locator('#kit-name').fill(name);
  await page.locator('#kit-name').press('Tab');
}

export const saysSaved = (page: Page): Promise<boolean> => has(page, '[data-storing="stored"]');

/** The file that a person gets, whether or not the browser saves anything. */
async function exportedName(page: Page): Promise<string> {
  const [file] = await Promise.all([
    page.waitForEvent('download', { timeout: 5000 }),
    page.locator('[data-command="export-kit"]:visible').first().click(),
  ]);
  const stream = await file.createReadStream();
  let text = '';
  for await (const part of stream) text += part;
  return (JSON.parse(text) as { kit: { name: string } }).kit.name;
}

async function trySheet(fault: SheetFault, bench: Bench): Promise<Outcome> {
  const options = fault.script === undefined ? {} : { script: fault.script };
  const opened = await openPage(await bench.fakeDevice(), bench.url, options);
  const { page, errors } = opened;
  try {
    if (fault.unsaved) {
      await page.locator('[data-command="open-sheet"]:visible').first().click();
      await page.locator('[data-start="four"]').click();
      await page.locator('#kit-name').waitFor();
    } else await openKit(page);
    const wrong: string[] = [];
    const words = fault.file ? await newWords(page) : () => visibleText(page);
    if (fault.file) {
      const buffer = Buffer.from(fault.file());
      await page.locator('#kit-file').setInputFiles({ name: 'kit.json', mimeType: 'application/json', buffer });
    }
    wrong.push(...((await fault.strike?.(opened, bench)) ?? []));
    const { told } = fault;
    const isTold =
      typeof told === 'string' || (await until(async () => told.test(await words()), fault.withinMs ?? 5000));
    const alarmed = told === 'nothing' && (await has(page, '[data-trouble], #kit-problem'));
    const shown = await shownInstead(page);
    if (fault.file && (await savedKits(page)).length > 1) wrong.push('opened as a sheet');
    await fault.mend?.(opened);
    const lost = fault.unsaved ? [] : await lostOf(page);
    const recovered = await isSavedAgain(page, fault.unsaved ?? false);
    const harmed = await page.evaluate(() => 'harmed' in globalThis);
    if (harmed) wrong.push('ran what stood in a text');
    const uncaught = errors.filter((text) => !/QuotaExceeded|SecurityError/.test(text));
    return {
      told: isTold && !alarmed,
      recovered: recovered && uncaught.length === 0,
      wrong,
      lost,
      shown: [shown, ...uncaught].filter(Boolean).join(' · '),
    };
  } finally {
    await opened.context.close().catch(() => undefined);
  }
}

/** A new name is saved; or, where nothing can be, is in the file. */
async function isSavedAgain(page: Page, unsaved: boolean): Promise<boolean> {
  const name = `${KIT.name.slice(0, 40)}, again`;
  if (!(await has(page, '#kit-name'))) return false;
  await rename(page, name);
  if (unsaved) return (await exportedName(page).catch(() => '')) === name;
  return until(async () => (await saysSaved(page)) && (await savedKits(page)).some((kit) => kit.name === name), 5000);
}
