/** What the audio thread and the page's own thread spend, from Chromium's trace of the built page. */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { launchPage, type PageOptions } from '../../support/page/launchPage';
import {
  audioGarbage,
  parseTrace,
  percentile,
  processMs,
  scriptMsPerFrame,
  TRACE_CATEGORIES,
} from '../../support/page/trace';

export interface Load {
  /** calls of process() seen */
  calls: number;
  /** shares of one render quantum, % */
  medianPercent: number;
  p95Percent: number;
  /** includes whatever else the machine did meanwhile */
  maxPercent: number;
  /** garbage collections on the audio thread in the traced time */
  garbageCount: number;
  /** the longest pause for it, ms */
  garbageMs: number;
  /** the same in the traced time before */
  earlierGarbageCount: number;
  frames: number;
  scriptMedianMs: number;
  scriptP95Ms: number;
}

/** the Web Audio specification's render quantum where nothing else is asked for, frames */
const QUANTUM_FRAMES = 128;

/**
 * @param begin brings the page to where it measures
 * @param settleSeconds passes before the trace: compilers warm up, the first readings come
 * @param cleanUpSeconds traced, but counted apart: Chromium cleans a thread's heap up once, 30 s after it has grown by a
 *   megabyte, which is what starting leaves behind
 */
export async function traceLoad(
  url: string,
  options: PageOptions,
  begin: (page: Page) => Promise<void>,
  { settleSeconds = 5, cleanUpSeconds = 0, seconds = 30, sampleRate = 44_100 } = {},
): Promise<Load> {
  const { browser, page } = await launchPage(url, options);
  try {
    await begin(page);
    await sleep(settleSeconds * 1000);
    await browser.startTracing(page, { categories: TRACE_CATEGORIES });
    await sleep((cleanUpSeconds + seconds) * 1000);
    const all = parseTrace(await browser.stopTracing());
    const last = all.reduce((latest, event) => Math.max(latest, event.ts), 0);
    const events = all.filter((event) => event.ts >= last - seconds * 1e6);
    const quantumMs = (QUANTUM_FRAMES / sampleRate) * 1000;
    const percent = processMs(events).map((ms) => (100 * ms) / quantumMs);
    const script = scriptMsPerFrame(events);
    const garbage = audioGarbage(events);
    return {
      calls: percent.length,
      medianPercent: percentile(percent, 0.5),
      p95Percent: percentile(percent, 0.95),
      maxPercent: percentile(percent, 1),
      garbageCount: garbage.count,
      garbageMs: garbage.longestMs,
      earlierGarbageCount: audioGarbage(all).count - garbage.count,
      frames: script.length,
      scriptMedianMs: percentile(script, 0.5),
      scriptP95Ms: percentile(script, 0.95),
    };
  } finally {
    await browser.close();
  }
}

/**
 * The control: a processor that makes garbage in every quantum. Its collections must show up in the trace, or a count of
 * none for the meter means nothing.
 */
const GARBAGE = `(async () => {
  const code = \`registerProcessor('garbage', class extends AudioWorkletProcessor {
    process() {
      this.kept = [];
      for (let i = 0; i < 1000; i++) this.kept.push({ i, list: [i, i] });
      return true;
    }
  })\`;
  const context = new AudioContext({ sampleRate: 44100 });
  await context.audioWorklet.addModule(URL.createObjectURL(new Blob([code], { type: 'text/javascript' })));
  new AudioWorkletNode(context, 'garbage').connect(context.destination);
  await context.resume();
})()`;

export async function makeGarbage(page: Page): Promise<void> {
  await page.mouse.click(5, 5); // audio starts after a press only
  await page.evaluate(GARBAGE);
}
