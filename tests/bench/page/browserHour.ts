/**
 * `npm run bench -- hour [--minutes N]`: the built page on the fake device in real time. Each minute: memory after full collections,
 * the reading, how far the trace's time has drifted from the clock, collections on the audio thread.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { openInterface } from '../../support/page/interface';
import { launchPage } from '../../support/page/launchPage';
import { answerWhen, readAnswer } from '../../support/page/screen';
import { servePage } from '../../support/page/servePage';
import { audioGarbage, audioThreads, parseTrace, TRACE_CATEGORIES } from '../../support/page/trace';
import { driftPercent } from '../engine/memory';
import { table } from '../table';
import { memoryNow } from './browserMemory';

/** the fake device plays it round and round */
const CAPTURE = fileURLToPath(new URL('../../../samples/kit/snare-top-bottom.wav', import.meta.url));

export interface Minute {
  minute: number;
  /** of the page, after full collections */
  megabytes: number;
  domNodes: number;
  state: string;
  polarity: string | null;
  delaySamples: number | null;
  hits: number;
  /** stream seconds of the newest reading and trace point less the audio clock's, against the first minute's, ms */
  driftMs: number;
  /** the audio clock less the page's own, against the first minute's, ms: what the machine was too busy to play is missing in it */
  clockMs: number;
  /** on the audio thread */
  collections: number;
  longestPauseMs: number;
}

/** few events: the trace goes on for a minute at a time */
const GARBAGE_ONLY = ['v8', 'disabled-by-default-v8.gc'];
const DRIFT_SECONDS = 2;

/** Keeps the context that the page makes, for its clock. */
const KEEP_CONTEXT = `globalThis.AudioContext = class extends AudioContext {
  constructor(options) {
    super(options);
    globalThis.keptContext = this;
  }
}`;

/** The trace's time less the audio clock's, and that less the page's, ms; a reading is the newest for a while, so the newest moment counts. */
const clocks = (page: Page): Promise<{ trace: number; audio: number }> =>
  page.evaluate(async (seconds) => {
    const { keptContext } = globalThis as unknown as { keptContext: AudioContext };
    let trace = Number.NEGATIVE_INFINITY;
    let audio = Number.NEGATIVE_INFINITY;
    const end = performance.now() + seconds * 1000;
    while (performance.now() < end) {
      const shown = Number(document.querySelector<HTMLElement>('#answer')?.dataset.readingSeconds);
      trace = Math.max(trace, (shown - keptContext.currentTime) * 1000);
      audio = Math.max(audio, keptContext.currentTime * 1000 - performance.now());
      await new Promise((done) => requestAnimationFrame(done));
    }
    return { trace, audio };
  }, DRIFT_SECONDS);

async function threadsOf(browser: Browser, page: Page): Promise<Set<string>> {
  await browser.startTracing(page, { categories: TRACE_CATEGORIES });
  await sleep(1000);
  return audioThreads(parseTrace(await browser.stopTracing()));
}

/** @param onMinute told as they come; minute 0 is one minute after the first reading */
export async function measureHour(
  url: string,
  captureWav: string,
  minutes: number,
  onMinute: (minute: Minute) => void,
): Promise<Minute[]> {
  const { browser, context, page, errors } = await launchPage(url, { captureWav, initScript: KEEP_CONTEXT });
  try {
    await openInterface(page, 'top-bottom');
    await answerWhen(page, 'a reading', (a) => a.state === 'measured');
    const threads = await threadsOf(browser, page);
    const cdp = await context.newCDPSession(page);
    await cdp.send('HeapProfiler.enable');
    const result: Minute[] = [];
    const from = Date.now();
    let first: { trace: number; audio: number } | null = null;
    for (let minute = 0; minute <= minutes; minute++) {
      await browser.startTracing(page, { categories: GARBAGE_ONLY });
      await sleep(Math.max(0, from + (minute + 1) * 60_000 - Date.now()));
      const garbage = audioGarbage(parseTrace(await browser.stopTracing()), threads);
      const { megabytes, domNodes } = await memoryNow(page, cdp, 0);
      const now = await clocks(page);
      first ??= now;
      const answer = await readAnswer(page);
      if (answer === null) throw new Error('the meter is not up any more');
      const { state, polarity, delaySamples, hits } = answer;
      const one = { minute, megabytes, domNodes, state, polarity, delaySamples, hits };
      result.push({
        ...one,
        driftMs: now.trace - first.trace,
        clockMs: now.audio - first.audio,
        collections: garbage.count,
        longestPauseMs: garbage.longestMs,
      });
      onMinute(result.at(-1) as Minute);
      if (errors.length > 0) throw new Error(errors.join('\n'));
    }
    return result;
  } finally {
    await browser.close();
  }
}

/** @param minutes in real time, after the first one */
export async function hourTable(minutes: number): Promise<string> {
  const served = await servePage();
  try {
    const all = await measureHour(served.url, CAPTURE, minutes, (one) => console.log(rowOf(one).join('  ')));
    const delays = all.flatMap(({ delaySamples }) => (delaySamples === null ? [] : [delaySamples]));
    const readings = new Set(all.map(({ state, polarity }) => `${state} ${polarity}`));
    const most = (values: readonly number[]): number => Math.max(...values.map(Math.abs));
    return table(
      [
        `${minutes} minutes of the fake device in real time: memory off by at most ${driftPercent(all.map((one) => one.megabytes)).toFixed(1)} %`,
        `readings: ${[...readings].join(', ')}, delay ${Math.min(...delays).toFixed(2)} to ${Math.max(...delays).toFixed(2)} samples`,
        `trace off the audio clock by at most ${most(all.map((one) => one.driftMs)).toFixed(0)} ms, that off the page's by ${most(all.map((one) => one.clockMs)).toFixed(0)} ms`,
        `collections on the audio thread: ${all.reduce((sum, one) => sum + one.collections, 0)}, longest ${most(all.map((one) => one.longestPauseMs)).toFixed(2)} ms`,
      ].join('\n'),
      HEAD,
      all.map(rowOf),
    );
  } finally {
    await served.close();
  }
}

const HEAD = [
  'minute',
  'MB',
  'elements',
  'state',
  'polarity',
  'delay',
  'hits',
  'off the clock',
  'collections',
  'longest',
];

const rowOf = (one: Minute): string[] => [
  String(one.minute),
  one.megabytes.toFixed(2),
  String(one.domNodes),
  one.state,
  one.polarity ?? '–',
  one.delaySamples?.toFixed(2) ?? '–',
  String(one.hits),
  `${one.driftMs.toFixed(0)} ms`,
  `${one.clockMs.toFixed(0)} ms`,
  String(one.collections),
  `${one.longestPauseMs.toFixed(2)} ms`,
];
