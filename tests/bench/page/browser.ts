/** `npm run bench -- browser`: the built page in real Chromium; prints tables. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { openInterface } from '../../support/page/interface';
import { playScene, press } from '../../support/page/screen';
import { servePage } from '../../support/page/servePage';
import { percentile } from '../../support/page/trace';
import { recordingAt } from '../engine/highRate';
import { table } from '../table';
import { type Latency, measureLatency } from './browserLatency';
import { type Load, makeGarbage, traceLoad } from './browserLoad';
import { gzippedBytes, MOST_BYTES, partWeights, UNUSED } from './weight';

const SCENE = 'snare-top-bottom';
/** the same sound through getUserMedia */
const CAPTURE = fileURLToPath(new URL(`../../../samples/kit/${SCENE}.wav`, import.meta.url));
const TRACED_SECONDS = 30;
/** after these, from the fifth second on, the browser has cleaned up what starting left */
const CLEAN_UP_SECONDS = 32;
const HIGH_RATE = 96_000;

const percent = (x: number): string => `${x.toFixed(2)} %`;
const ms = (x: number): string => `${x.toFixed(x < 10 ? 2 : 0)} ms`;

function loadRow(name: string, load: Load): string[] {
  return [
    name,
    String(load.calls),
    percent(load.medianPercent),
    percent(load.p95Percent),
    percent(load.maxPercent),
    `${load.garbageCount} (${ms(load.garbageMs)})`,
    String(load.earlierGarbageCount),
  ];
}

function latencyRow(name: string, what: string, values: readonly number[]): string[] {
  return [name, what, String(values.length), ms(percentile(values, 0.5)), ms(percentile(values, 0.95))];
}

async function playRecording(page: Page, path: string): Promise<void> {
  await page.locator('#recording-files').first().setInputFiles(path);
  await press(page, 'play');
  await page.locator('#answer').waitFor();
}

/** `npm run bench -- weight`: what the browser fetches of the built page, part by part and file by file. */
export async function weightTable(): Promise<string> {
  const served = await servePage();
  await served.close();
  const parts = await partWeights(process.env.CROSSHEAD_PAGE ?? '.cache/page');
  const kB = (bytes: number): string => (bytes / 1000).toFixed(1);
  const used = parts.filter(({ part }) => part !== UNUSED).length;
  const upTo = (n: number): string => kB(gzippedBytes(parts.slice(0, n).flatMap(({ files }) => files)));
  return table(
    `Page weight without audio, gzipped: ${upTo(1)} kB at first (limit ${kB(MOST_BYTES)}), ${upTo(2)} kB with the first reading, ${upTo(used)} kB when everything was used`,
    ['part', 'file', 'bytes', 'gzipped'],
    parts.flatMap(({ part, files }) => [
      [part, '', files.reduce((sum, { bytes }) => sum + bytes, 0), gzippedBytes(files)],
      ...files.map(({ file, bytes, gzipped }) => ['', file, bytes, gzipped]),
    ]),
  );
}

export async function runBrowserBench(): Promise<void> {
  const served = await servePage();
  try {
    const { url } = served;
    const seconds = TRACED_SECONDS;
    const settled = { seconds, cleanUpSeconds: CLEAN_UP_SECONDS };
    const demo = await traceLoad(url, {}, (page) => playScene(page, SCENE), settled);
    const live = await traceLoad(url, { captureWav: CAPTURE }, (page) => openInterface(page, 'top-bottom'), settled);
    const recording = recordingAt(SCENE, HIGH_RATE, seconds + CLEAN_UP_SECONDS + 20);
    const high = await traceLoad(url, {}, (page) => playRecording(page, recording), {
      ...settled,
      sampleRate: HIGH_RATE,
    });
    const control = await traceLoad(url, { anyProgram: true }, makeGarbage, { seconds: 5, settleSeconds: 1 });
    console.log(
      table(
        `process() on the audio thread, share of one 128-frame quantum; garbage collections in ${seconds} s, and in the ${CLEAN_UP_SECONDS} s before (what starting left)`,
        ['source', 'calls', 'median', 'p95', 'max, preemption included', 'collections', 'before'],
        [
          loadRow('demo scene, 44.1 kHz', demo),
          loadRow('fake device, 44.1 kHz', live),
          loadRow('recording, 96 kHz', high),
          loadRow('control that makes garbage, 5 s', control),
        ],
      ),
    );
    console.log(
      table(
        'Script on the main thread per animation frame',
        ['source', 'frames', 'median', 'p95'],
        [
          ['demo scene', String(demo.frames), ms(demo.scriptMedianMs), ms(demo.scriptP95Ms)],
          ['fake device', String(live.frames), ms(live.scriptMedianMs), ms(live.scriptP95Ms)],
        ],
      ),
    );
    const sources: [string, Latency][] = [
      ['demo scene', await measureLatency(url, {}, (page) => playScene(page, SCENE))],
      ['fake device', await measureLatency(url, { captureWav: CAPTURE }, (page) => openInterface(page, 'top-bottom'))],
    ];
    console.log(
      table(
        "A hit's first sample to the screen; interface and display excluded",
        ['source', 'what', 'hits', 'median', 'p95'],
        sources.flatMap(([name, latency]) => [
          latencyRow(name, 'updated delay', latency.delayMs),
          latencyRow(name, 'updated sum', latency.sumMs),
        ]),
      ),
    );
  } finally {
    await served.close();
  }
}
