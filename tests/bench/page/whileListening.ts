/** `npm run bench -- listening`: what the audio thread spends, and how late the screen is, while Try it is open and its strip plays. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { openInterface } from '../../support/page/interface';
import type { PageOptions } from '../../support/page/launchPage';
import { answerWhen, playScene, press } from '../../support/page/screen';
import { servePage } from '../../support/page/servePage';
import { percentile } from '../../support/page/trace';
import { table } from '../table';
import { type Latency, measureLatency } from './browserLatency';
import { type Load, traceLoad } from './browserLoad';

const SCENE = 'snare-top-bottom';
/** the same sound through getUserMedia */
const CAPTURE = fileURLToPath(new URL(`../../../samples/kit/${SCENE}.wav`, import.meta.url));
const SECONDS = 30;
/** after these the browser has cleaned up what starting left */
const CLEAN_UP_SECONDS = 32;

async function listen(page: Page): Promise<void> {
  await answerWhen(page, 'hits that can be looped', (one) => one.state === 'measured' && one.hits > 8);
  await press(page, 'try');
  await press(page, 'listen');
  await page.locator('[data-command="listen"][aria-pressed="true"]').waitFor();
  await page.locator('[data-field="listen-level"]').fill('0.5');
  await page.locator('[data-choice="tried"]').click();
}

interface Row {
  name: string;
  load: Load;
  latency: Latency;
}

export async function listeningTable(): Promise<string> {
  const served = await servePage();
  const rows: Row[] = [];
  const measure = async (name: string, options: PageOptions, begin: (page: Page) => Promise<void>): Promise<void> => {
    const load = await traceLoad(served.url, options, begin, { seconds: SECONDS, cleanUpSeconds: CLEAN_UP_SECONDS });
    rows.push({ name, load, latency: await measureLatency(served.url, options, begin) });
  };
  try {
    const scene = (page: Page): Promise<void> => playScene(page, SCENE);
    const device = (page: Page): Promise<void> => openInterface(page, 'top-bottom');
    const heard = (begin: (page: Page) => Promise<void>) => async (page: Page) => {
      await begin(page);
      await listen(page);
    };
    await measure('example kit', {}, scene);
    await measure('example kit, listening', {}, heard(scene));
    await measure('fake device', { captureWav: CAPTURE }, device);
    await measure('fake device, listening', { captureWav: CAPTURE }, heard(device));
  } finally {
    await served.close();
  }
  const percent = (x: number): string => `${x.toFixed(1)} %`;
  return table(
    `While Try it is open and a loop plays at half level, beside without: process() of all worklet nodes, share of a 128-frame quantum; collections on their threads in ${SECONDS} s; a hit's first sample to the new delay on the screen; script per frame`,
    ['source', 'calls', 'median', 'p95', 'collections', 'longest', 'delay, median', 'p95', 'script, median', 'p95'],
    rows.map(({ name, load, latency: { delayMs } }) => [
      name,
      load.calls,
      percent(load.medianPercent),
      percent(load.p95Percent),
      load.garbageCount,
      `${load.garbageMs.toFixed(1)} ms`,
      `${percentile(delayMs, 0.5).toFixed(0)} ms`,
      `${percentile(delayMs, 0.95).toFixed(0)} ms`,
      `${load.scriptMedianMs.toFixed(1)} ms`,
      `${load.scriptP95Ms.toFixed(1)} ms`,
    ]),
  );
}
