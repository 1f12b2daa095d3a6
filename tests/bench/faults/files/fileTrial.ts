/** A file that can't be used, or only in part: dropped on the page as a person does, over a kit and a reading that must stay. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { openPage } from '../bench';
import type { Bench, Fault, Outcome, Told } from '../faultTypes';
import { lostOf, openKit } from '../kept';
import { isTrue, PAIR, pairChannels, type Truth } from '../live/pair';
import { has, newWords, pressIfThere, shownInstead, until } from '../screen';
import { floatWav } from './wavBytes';

export interface GivenFile {
  name: string;
  bytes?: Uint8Array;
  /** a file on this computer, by its path */
  path?: string;
}

export interface FileFault {
  sub: string;
  name: string;
  how: string;
  told: Told;
  files(): GivenFile[] | Promise<GivenFile[]>;
  /** between choosing and measuring */
  meanwhile?(): Promise<void>;
  /** what a certain reading of it may be; none unless told */
  truth?: readonly Truth[];
  /** it can be measured, and must be: without a certain reading something is wrong */
  mustRead?: boolean;
}

/** ms until a sentence is on the page, or an analysis at its end */
const TOLD_MS = 6000;
const READ_MS = 20_000;
const GOOD = 'good.wav';

interface Row {
  page: Page;
  errors: string[];
  turn: Promise<unknown>;
}
const rows = new WeakMap<Bench, Promise<Row>>();

async function beginRow(bench: Bench): Promise<Row> {
  const { page, errors } = await openPage(await bench.fakeDevice(), bench.url);
  await openKit(page);
  await page.keyboard.press('e');
  await page.locator('[data-command="play-demo"]:enabled').first().waitFor();
  await readGood(page);
  return { page, errors, turn: Promise.resolve() };
}

/** All in one page, one after the other: what one file leaves behind would harm the next. */
export const fileFaults = (all: readonly FileFault[]): Fault[] =>
  all.map((one) => ({
    kind: 'files',
    sub: one.sub,
    name: one.name,
    how: one.how,
    told: one.told,
    recovers: 'another file is measured, without a reload',
    async run(bench) {
      const begun = rows.get(bench) ?? beginRow(bench);
      rows.set(bench, begun);
      const row = await begun;
      const mine = row.turn.then(() => tryFile(one, row));
      row.turn = mine.catch(() => undefined);
      return mine;
    },
  }));

/** Onto the whole page. */
async function drop(page: Page, files: readonly GivenFile[]): Promise<void> {
  const [first] = files;
  if (first?.path) {
    await showRecordingPage(page);
    return page
      .locator('#recording-files')
      .first()
      .setInputFiles(files.map(({ path = '' }) => path));
  }
  const given = files.map(({ name, bytes = new Uint8Array(0) }) => ({
    name,
    text: Buffer.from(bytes).toString('base64'),
  }));
  const data = await page.evaluateHandle((list) => {
    const transfer = new DataTransfer();
    for (const { name, text } of list) {
      const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      transfer.items.add(new File([bytes], name, { type: 'audio/wav' }));
    }
    return transfer;
  }, given);
  for (const type of ['dragenter', 'dragover', 'drop']) await page.dispatchEvent('body', type, { dataTransfer: data });
}

const goodFile = (): GivenFile => ({ name: GOOD, bytes: floatWav(pairChannels(5)) });

/** The page where files are chosen, with a good one in hand. */
async function showRecordingPage(page: Page): Promise<void> {
  await drop(page, [goodFile()]);
  await page.locator('main.recording[data-files="fine"]').waitFor();
}

async function readGood(page: Page): Promise<boolean> {
  await showRecordingPage(page);
  await pressIfThere(page, '[data-command="analyse"]');
  return until(async () => isTrue(await certain(page), [PAIR]) && !(await has(page, '[data-problem]')), READ_MS);
}

/** of the recording that was measured last; null: nothing certain */
const certain = (page: Page): Promise<Truth | null> =>
  page.evaluate(() => {
    const data = document.querySelector<HTMLElement>('#answer')?.dataset;
    if (data?.state !== 'measured' || data.run !== 'ended') return null;
    return { polarity: data.polarity as 'same' | 'inverted', delayMs: Number(data.delayMs) };
  });

async function tryFile(fault: FileFault, { page, errors }: Row): Promise<Outcome> {
  const before = errors.length;
  const words = await newWords(page);
  await drop(page, await fault.files());
  const { told } = fault;
  const isTold = async (): Promise<boolean> => told instanceof RegExp && told.test(await words());
  await page.locator('main.recording:not([data-files="reading"])').waitFor({ timeout: TOLD_MS });
  await fault.meanwhile?.();
  let saw = await until(isTold, 300);
  let read: Truth | null = null;
  const usable = (await page.locator('main.recording').getAttribute('data-files')) !== 'unusable';
  if (usable && (await pressIfThere(page, '[data-command="analyse"]'))) {
    await sleep(300);
    const over = async (): Promise<boolean> =>
      (await has(page, '[data-problem]')) || (await has(page, '#answer[data-run="ended"]'));
    await until(over, READ_MS);
    await sleep(200);
    if (!(await has(page, 'main.recording'))) read = await certain(page);
  }
  saw = saw || (await until(isTold, 1500));
  const alarmed = told === 'nothing' && (await has(page, '[data-problem]'));
  const shown = await shownInstead(page);
  const wrong =
    read && !isTrue(read, fault.truth ?? []) ? [`${read.polarity} ${(read.delayMs * 34.3).toFixed(1)} cm`] : [];
  const lost = await lostOf(page);
  // the reading that stood before it stands still, where the file was refused
  if (await pressIfThere(page, '[data-command="back-to-reading"]')) {
    const stands = await until(async () => isTrue(await certain(page), [PAIR]), 2000);
    if (!stands) lost.push('the reading before');
  }
  const recovered = await readGood(page);
  const uncaught = errors.slice(before);
  const missing = fault.mustRead && !read;
  return {
    told: (saw || typeof told === 'string') && !alarmed && !missing,
    recovered: recovered && uncaught.length === 0,
    wrong,
    lost,
    shown: [missing ? 'no certain reading' : '', shown, ...uncaught].filter(Boolean).join(' · '),
  };
}
