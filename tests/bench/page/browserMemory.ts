/**
 * Hours of readings through the built page, faster than real time. A tap stands in the memory between the audio thread and the page and
 * keeps the readings of one round of an example; then the stream is cut off and the round is written into the page's memory again
 * and again, with stream times and hit numbers that go on, a second of readings before each frame.
 */
import type { CDPSession, Page } from 'playwright-core';
import { READINGS_PER_SECOND } from '../../../src/protocol/messages';
import { AT, SLOT } from '../../../src/reading/frame';
import { launchPage } from '../../support/page/launchPage';
import { RING_ENDS } from '../../support/page/ringText';
import { answerWhen, playScene, readAnswer } from '../../support/page/screen';

export interface PageMemory {
  readings: number;
  /** JS heap, its array buffers and the browser's own objects, after a full collection */
  megabytes: number;
  domNodes: number;
}

/** The same with what is shown, which is of the last reading of a round. */
export interface PageHours extends PageMemory {
  state: string;
  polarity: string | null;
  delaySamples: number | null;
  /** stream seconds of the shown reading less those of the one that was written last */
  secondsOff: number;
}

const { head: HEAD, hit: HIT } = SLOT;

/** Text, not functions: it must run in the page as it stands. */
const TAP = `(() => {
  const tap = { frames: [], keep: false, cut: false, handed: 0 };
  globalThis.crossheadTap = tap;
  ${RING_ENDS}
  const Real = AudioWorkletNode;
  globalThis.AudioWorkletNode = class extends Real {
    constructor(context, name, { processorOptions, ...rest }) {
      const ring = new SharedArrayBuffer(processorOptions.ring.byteLength);
      super(context, name, { ...rest, processorOptions: { ...processorOptions, ring } });
      const toPage = ringEnds(processorOptions.ring);
      tap.write = toPage.write;
      ringEnds(ring).read((frame) => {
        if (tap.cut) return;
        if (tap.keep) tap.frames.push(frame);
        toPage.write(frame);
      });
    }
  };
  tap.hand = (readings) => new Promise((done) => {
    const { frames } = tap;
    const first = frames[0];
    const last = frames.at(-1);
    const seconds = last[${HEAD.streamSeconds}] - first[${HEAD.streamSeconds}];
    const hits = last[${HEAD.hits}] - first[${HEAD.hits}];
    const until = tap.handed + readings;
    const step = () => {
      for (let i = 0; i < ${READINGS_PER_SECOND} && tap.handed < until; i++, tap.handed++) {
        // the first one of a round is the last one of the round before
        const round = Math.floor(tap.handed / (frames.length - 1)) + 1;
        const frame = frames[1 + (tap.handed % (frames.length - 1))].slice();
        frame[${HEAD.streamSeconds}] += round * seconds;
        frame[${HEAD.traceSeconds}] += round * seconds;
        frame[${HEAD.hits}] += round * hits;
        for (let k = 0; k < frame[${HEAD.hitCount}]; k++) {
          const at = ${AT.hit(0)} + k * ${AT.hit(1) - AT.hit(0)};
          frame[at + ${HIT.serial}] += round * hits;
          frame[at + ${HIT.timeSeconds}] += round * seconds;
        }
        tap.write(frame);
        tap.lastSeconds = frame[${HEAD.streamSeconds}];
      }
      if (tap.handed < until) requestAnimationFrame(step);
      else requestAnimationFrame(() => setTimeout(done, 100));
    };
    step();
  });
})()`;

/** more than the hits that a reading carries: from here on every round is alike */
const SETTLED_HITS = 40;

export async function memoryNow(page: Page, cdp: CDPSession, readings: number): Promise<PageMemory> {
  // twice: the first one may leave what its own finalisers held
  await cdp.send('HeapProfiler.collectGarbage');
  await cdp.send('HeapProfiler.collectGarbage');
  const heap = (await cdp.send('Runtime.getHeapUsage')) as {
    usedSize: number;
    embedderHeapUsedSize?: number;
    backingStorageSize?: number;
  };
  const bytes = heap.usedSize + (heap.embedderHeapUsedSize ?? 0) + (heap.backingStorageSize ?? 0);
  const domNodes = await page.evaluate(() => document.querySelectorAll('*').length);
  return { readings, megabytes: bytes / 1e6, domNodes };
}

/** @param stops numbers of readings at which the memory is measured, ascending; each is made a whole number of rounds */
export async function measurePageMemory(
  url: string,
  stops: readonly number[],
  roundSeconds: number,
): Promise<PageHours[]> {
  const { browser, context, page, errors } = await launchPage(url, { initScript: TAP });
  try {
    await playScene(page, 'snare-top-bottom');
    await answerWhen(page, `${SETTLED_HITS} hits`, (answer) => answer.hits >= SETTLED_HITS);
    await page.evaluate('crossheadTap.keep = true');
    await page.waitForTimeout(roundSeconds * 1000);
    await page.evaluate('crossheadTap.cut = true');
    const cdp = await context.newCDPSession(page);
    await cdp.send('HeapProfiler.enable');
    const round = await page.evaluate<number>('crossheadTap.frames.length - 1');
    const result: PageHours[] = [];
    let handed = 0;
    for (const stop of stops.map((readings) => Math.ceil(readings / round) * round)) {
      await page.evaluate(`crossheadTap.hand(${stop - handed})`);
      handed = stop;
      const memory = await memoryNow(page, cdp, handed);
      const answer = await readAnswer(page);
      if (answer === null) throw new Error('the meter is not up any more');
      const { state, polarity, delaySamples, readingSeconds } = answer;
      const secondsOff = (readingSeconds ?? Number.NaN) - (await page.evaluate<number>('crossheadTap.lastSeconds'));
      result.push({ ...memory, state, polarity, delaySamples, secondsOff });
    }
    const hits = await page.evaluate(() => Number(document.querySelector<HTMLElement>('#answer')?.dataset.hits));
    // the hits went on all the while, or nothing was put through
    if (hits < SETTLED_HITS + handed / READINGS_PER_SECOND / 2) throw new Error(`the page shows ${hits} hits only`);
    if (errors.length > 0) throw new Error(errors.join('\n'));
    return result;
  } finally {
    await browser.close();
  }
}
