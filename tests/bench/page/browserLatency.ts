/**
 * From a hit's first sample to its values on the screen, on the built page.
 *
 * Method. A tap in the page notes for every reading that arrives from the audio thread when it came (performance.now)
 * and how many seconds of the stream it covers, which hits it has decided and whether the sum's spectrum changed. The
 * smallest (arrival time − stream seconds) within a few seconds is the moment at which second 0 of the stream would
 * have entered process(), plus the way of the fastest message; less 1 ms for that way, it turns every stream time into
 * clock time. It is early rather than late: blocks come in bursts, and the time a sample waits for its burst counts as
 * latency here. A hit begins at its earlier first arrival, as the engine picked it.
 * The end is the start of the frame after the one in which the page changed: by then the change was drawn and handed over.
 * Excluded: the interface and the driver before process(), the display after the frame; and the hits that came before the
 * page stood, which wait for its parts.
 */
import { setTimeout as sleep } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { SPECTRUM_POINTS } from '../../../src/reading/bands';
import { FATES } from '../../../src/reading/codes';
import { AT, SLOT } from '../../../src/reading/frame';
import { launchPage, type PageOptions } from '../../support/page/launchPage';
import { RING_ENDS } from '../../support/page/ringText';

interface TapHit {
  serial: number;
  timeSeconds: number;
  fate: string;
}
interface TapReading {
  atMs: number;
  streamSeconds: number;
  hits: TapHit[];
  /** a number that changes when Re γ or Im γ does */
  spectrum: number;
}
interface TapPaint {
  atMs: number;
  seconds: number;
}
interface Tap {
  readings: TapReading[];
  answers: TapPaint[];
  sums: TapPaint[];
}

export interface Latency {
  hits: number;
  /** ms from first sample to painted */
  delayMs: number[];
  sumMs: number[];
}

const NEWEST_HITS = 4;
const FASTEST_MESSAGE_MS = 1;
const ALIGN_MS = 3000;

const { head: HEAD, hit: HIT } = SLOT;
const HIT_LENGTH = AT.hit(1) - AT.hit(0);

/** Text, not functions: it must run in the page as it stands. */
const TAP = `(() => {
  const tap = { readings: [], answers: [], sums: [] };
  globalThis.crossheadTap = tap;
  const fates = ${JSON.stringify(FATES)};
  ${RING_ENDS}
  const note = (frame) => {
    const atMs = performance.now();
    const count = frame[${HEAD.hitCount}];
    const hits = [];
    for (let i = Math.max(0, count - ${NEWEST_HITS}); i < count; i++) {
      const at = ${AT.hit(0)} + i * ${HIT_LENGTH};
      hits.push({
        serial: frame[at + ${HIT.serial}],
        timeSeconds: frame[at + ${HIT.timeSeconds}],
        fate: fates[frame[at + ${HIT.fate}]],
      });
    }
    let spectrum = 0;
    for (let i = 0; i < ${2 * SPECTRUM_POINTS}; i++) {
      const x = frame[${AT.re} + i];
      if (x === x) spectrum += x * (i + 1);
    }
    const streamSeconds = frame[${HEAD.streamSeconds}];
    // a restart begins the stream again: what came before has another origin
    if (streamSeconds < (tap.readings.at(-1)?.streamSeconds ?? 0)) {
      for (const list of Object.values(tap)) list.length = 0;
    }
    // a reading posted before the first block says nothing about the stream's clock
    if (streamSeconds === 0) return;
    // a scene that goes round brings equal hits: rounding errors are no change
    tap.readings.push({ atMs, streamSeconds, hits, spectrum: Number(spectrum.toPrecision(7)) });
  };
  const Real = AudioWorkletNode;
  globalThis.AudioWorkletNode = class extends Real {
    constructor(context, name, options) {
      super(context, name, options);
      // the meter's node alone: what records and what is listened to have none
      const memory = options.processorOptions.ring;
      if (memory) ringEnds(memory).read(note);
    }
  };
  const watch = (selector, attribute, into) => {
    let last = '';
    new MutationObserver(() => {
      const now = document.querySelector(selector)?.getAttribute(attribute) ?? '';
      if (now === '' || now === last) return;
      last = now;
      requestAnimationFrame((atMs) => into.push({ atMs, seconds: Number(now) }));
    }).observe(document, { subtree: true, childList: true, attributes: true, attributeFilter: [attribute] });
  };
  watch('#answer', 'data-reading-seconds', tap.answers);
  watch('figure.sum', 'data-changed-seconds', tap.sums);
})()`;

/** Clock time of second 0 of the stream, as seen round `atMs`. */
function streamStartMs(readings: readonly TapReading[], atMs: number): number {
  let least = Number.POSITIVE_INFINITY;
  for (const reading of readings) {
    if (Math.abs(reading.atMs - atMs) <= ALIGN_MS) least = Math.min(least, reading.atMs - reading.streamSeconds * 1000);
  }
  return least - FASTEST_MESSAGE_MS;
}

/** @param fromMs hits that began before this moment of the page's clock aren't counted */
export function latencies(tap: Tap, fromMs = 0): Latency {
  const decided = new Map<number, { timeSeconds: number; reading: TapReading }>();
  for (const reading of tap.readings) {
    for (const hit of reading.hits) {
      if (hit.fate !== 'pending' && !decided.has(hit.serial)) {
        decided.set(hit.serial, { timeSeconds: hit.timeSeconds, reading });
      }
    }
  }
  const all = [...decided.values()].sort((a, b) => a.timeSeconds - b.timeSeconds);
  const result: Latency = { hits: 0, delayMs: [], sumMs: [] };
  for (let i = 0; i + 1 < all.length; i++) {
    const { timeSeconds, reading } = all[i];
    const next = all[i + 1].timeSeconds;
    const beganMs = streamStartMs(tap.readings, reading.atMs) + timeSeconds * 1000;
    if (beganMs < fromMs) continue;
    result.hits++;
    const answer = tap.answers.find((paint) => paint.seconds >= reading.streamSeconds - 1e-6);
    if (answer) result.delayMs.push(answer.atMs - beganMs);
    // the last change of the spectrum before the next hit is the one that includes this hit in full
    const own = tap.readings.filter((one) => one.streamSeconds > timeSeconds && one.streamSeconds < next);
    const changed = own.filter((one, k) => k > 0 && one.spectrum !== own[k - 1].spectrum).at(-1);
    // a looped scene may come back to the very spectrum that the page still shows: then there is nothing to paint
    if (changed?.spectrum === own[0]?.spectrum) continue;
    const sum = changed && tap.sums.find((paint) => paint.seconds >= changed.streamSeconds - 1e-6);
    if (sum) result.sumMs.push(sum.atMs - beganMs);
  }
  return result;
}

/** @param begin brings the page to where it measures */
export async function measureLatency(
  url: string,
  options: PageOptions,
  begin: (page: Page) => Promise<void>,
  seconds = 40,
): Promise<Latency> {
  const { browser, page } = await launchPage(url, { ...options, initScript: TAP });
  try {
    await begin(page);
    // a reading is on the screen: its parts are there
    while (Number(await page.evaluate('globalThis.crossheadTap.answers.length')) === 0) await sleep(50);
    const fromMs = Number(await page.evaluate('performance.now()'));
    await sleep(seconds * 1000);
    return latencies((await page.evaluate('globalThis.crossheadTap')) as Tap, fromMs);
  } finally {
    await browser.close();
  }
}
