/** `npm run bench -- kit`: how long kits full of readings take to open, in Node alone and on the built page in real Chromium. */
import { performance } from 'node:perf_hooks';
import type { Page } from 'playwright-core';
import { readSheet, writeSheet } from '../../../src/sheet/document/file';
import { kitSystem } from '../../../src/sheet/kit/kitSystem';
import { handOver } from '../../../src/sheet/print/handOver';
import { launchPage } from '../../support/page/launchPage';
import { press } from '../../support/page/screen';
import { servePage } from '../../support/page/servePage';
import { type LargeKit, largeKit } from '../../support/readings/largeKit';
import { table } from '../table';

export const KITS: [name: string, kit: LargeKit][] = [
  ['14 mics, 6 drums, each pair once', { microphones: 14, drums: 6, readings: 500 }],
  ['14 mics, 14 drums, before and after', { microphones: 14, drums: 14, readings: 500, twice: true }],
  ['32 mics, 20 drums, each pair once', { microphones: 32, drums: 20, readings: 500 }],
];
const RUNS = 3;

/** From the press, or from when the page has the file, until the kit is on the screen; and until the page answers again. */
interface Opened {
  shownMs: number;
  answersMs: number;
}

/** Everything is timed on the page itself: the name is there and has been painted; a timer that was asked for then has run. */
const WATCH = `window.opened = new Promise((resolve) => {
  // what the driver takes to hand a file over isn't the page's
  let started = Infinity;
  for (const type of ['change', 'click'])
    document.addEventListener(type, () => { started = Math.min(started, performance.now()); }, { capture: true });
  const look = () => {
    if (!document.querySelector('#kit-name') || document.querySelectorAll('.pair-row').length === 0) return void requestAnimationFrame(look);
    requestAnimationFrame(() => setTimeout(() => {
      const shownMs = performance.now() - started;
      let free = performance.now();
      // answers again: a fifth of a second without a task of 50 ms
      let quiet = performance.now();
      const tick = () => {
        const now = performance.now();
        if (now - free > 50) quiet = now;
        free = now;
        if (now - quiet < 200) return void setTimeout(tick, 5);
        resolve({ shownMs, answersMs: quiet - started });
      };
      tick();
    }));
  };
  look();
})`;

async function timed(page: Page, act: () => Promise<unknown>): Promise<Opened> {
  await page.evaluate(`void (${WATCH})`);
  await act();
  return page.evaluate<Opened>('window.opened');
}

export async function onThePage(url: string, kit: LargeKit): Promise<{ file: Opened; kept: Opened; left: Opened }> {
  const { browser, page } = await launchPage(url);
  try {
    await press(page, 'open-sheet');
    await page.locator('#kit-file').waitFor({ state: 'attached' });
    const buffer = Buffer.from(writeSheet(largeKit(kit), '2026-01-02T03:10:00Z'));
    const file = await timed(page, () =>
      page.locator('#kit-file').setInputFiles({ name: 'kit.json', mimeType: 'application/json', buffer }),
    );
    await page.locator('[data-storing="stored"]').waitFor();
    await press(page, 'close-kit');
    const stored = page.locator('[data-command="open-kit"]').first();
    await stored.waitFor();
    const kept = await timed(page, () => stored.evaluate((button) => (button as HTMLButtonElement).click()));
    await page.reload({ waitUntil: 'load' });
    const open = page.locator('[data-command="open-sheet"]:visible').first();
    const left = await timed(page, () => open.evaluate((button) => (button as HTMLButtonElement).click()));
    return { file, kept, left };
  } finally {
    await browser.close();
  }
}

const median = (values: number[]): string =>
  (values.sort((p, q) => p - q)[Math.floor(values.length / 2)] as number).toFixed(0);

function inNode(name: string, kit: LargeKit): (string | number)[] {
  const text = writeSheet(largeKit(kit), '2026-01-02T03:10:00Z');
  const times = Array.from({ length: RUNS }, () => {
    const started = performance.now();
    const read = readSheet(text);
    if ('problem' in read) throw new Error(read.problem);
    const at = [performance.now() - started];
    try {
      kitSystem(read.sheet);
    } catch {
      // too many together is an answer as well
    }
    at.push(performance.now() - started - (at[0] as number));
    handOver(read.sheet);
    at.push(performance.now() - started);
    return at;
  });
  return [name, (text.length / 1e6).toFixed(1), ...[0, 1, 2].map((n) => median(times.map((at) => at[n] as number)))];
}

export async function kitTables(): Promise<string> {
  const node = table(
    `A kit of 500 readings in Node, ms, median of ${RUNS}`,
    ['kit', 'MB', 'file read', 'whole kit', 'all, hand-over included'],
    KITS.map(([name, kit]) => inNode(name, kit)),
  );
  const served = await servePage();
  try {
    const rows: string[][] = [];
    for (const [name, kit] of KITS) {
      const runs: Awaited<ReturnType<typeof onThePage>>[] = [];
      for (let run = 0; run < RUNS; run++) runs.push(await onThePage(served.url, kit));
      for (const how of ['file', 'kept', 'left'] as const)
        rows.push([
          name,
          { file: 'from a file', kept: 'from the list', left: 'left open, page loaded anew' }[how],
          median(runs.map((one) => one[how].shownMs)),
          median(runs.map((one) => one[how].answersMs)),
        ]);
    }
    const page = table(
      `The same on the built page in Chromium, ms, median of ${RUNS}: until it is on the screen, until the page answers again`,
      ['kit', 'how', 'shown', 'answers'],
      rows,
    );
    return `${node}\n${page}`;
  } finally {
    await served.close();
  }
}
