/** `npm run bench -- browser`: the built page in real Chromium; prints tables. */
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { openInterface } from '../../support/page/interface';
import type { PageOptions } from '../../support/page/launchPage';
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
const RUNS = 3;

const percent = (x: number): string => `${x.toFixed(2)} %`;
const ms = (x: number): string => `${x.toFixed(x < 10 ? 2 : 0)} ms`;

function loadRow(name: string, load: Load): string[] {
  return [name, String(load.calls), percent(load.medianPercent), percent(load.p95Percent), percent(load.maxPercent)];
}

const garbageOf = ({ garbageCount, garbageMs }: Load): string =>
  garbageCount === 0 ? '0' : `${garbageCount} (${ms(garbageMs)})`;

interface Source {
  name: string;
  sampleRate: number;
  options: PageOptions;
  begin(page: Page): Promise<void>;
}

function sources(): Source[] {
  // longer than it is traced
  const recording = recordingAt(SCENE, HIGH_RATE, TRACED_SECONDS + CLEAN_UP_SECONDS + 20);
  return [
    { name: 'example kit', sampleRate: 44_100, options: {}, begin: (page) => playScene(page, SCENE) },
    {
      name: 'fake device',
      sampleRate: 44_100,
      options: { captureWav: CAPTURE },
      begin: (page) => openInterface(page, 'top-bottom'),
    },
    { name: 'recording', sampleRate: HIGH_RATE, options: {}, begin: (page) => playRecording(page, recording) },
  ];
}

interface Runs {
  source: Source;
  isolated: boolean;
  loads: Load[];
}

/** Every source on a page that shares memory with the audio thread, and on one that doesn't, each in a browser of its own. */
async function allRuns(url: string, notIsolatedUrl: string): Promise<Runs[]> {
  const all: Runs[] = [];
  for (const isolated of [true, false])
    for (const source of sources()) {
      const loads: Load[] = [];
      for (let run = 0; run < RUNS; run++)
        loads.push(
          await traceLoad(isolated ? url : notIsolatedUrl, source.options, source.begin, {
            seconds: TRACED_SECONDS,
            cleanUpSeconds: CLEAN_UP_SECONDS,
            sampleRate: source.sampleRate,
          }),
        );
      all.push({ source, isolated, loads });
      console.log(garbageRow({ source, isolated, loads }).join('  '));
    }
  return all;
}

const garbageRow = ({ source, isolated, loads }: Runs): string[] => [
  source.name,
  isolated ? 'shared memory' : 'messages',
  ...loads.map(garbageOf),
  loads.map(({ earlierGarbageCount }) => earlierGarbageCount).join(', '),
];

/** `npm run bench -- garbage`, and part of `browser`. */
export async function garbageTable(): Promise<string> {
  return (await measureGarbage()).text;
}

async function measureGarbage(): Promise<{ text: string; runs: Runs[] }> {
  const served = await servePage();
  const notIsolated = await servePage(false);
  try {
    const runs = await allRuns(served.url, notIsolated.url);
    const control = await traceLoad(served.url, { anyProgram: true }, makeGarbage, { seconds: 5, settleSeconds: 1 });
    const text = table(
      `Collections on the audio thread in ${TRACED_SECONDS} s (the longest pause), and in the ${CLEAN_UP_SECONDS} s before, which is what starting left`,
      ['source', 'readings by', ...Array.from({ length: RUNS }, (_, i) => `run ${i + 1}`), 'before'],
      [
        ...runs.map(garbageRow),
        ['control that makes garbage, 5 s', '–', garbageOf(control), ...Array(RUNS - 1).fill('–'), '–'],
      ],
    );
    return { text, runs };
  } finally {
    await served.close();
    await notIsolated.close();
  }
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
    const { text, runs } = await measureGarbage();
    console.log(text);
    const shared = runs.filter(({ isolated }) => isolated);
    console.log(
      table(
        'process() on the audio thread, share of one 128-frame quantum, first run',
        ['source', 'calls', 'median', 'p95', 'max, preemption included'],
        shared.map(({ source, loads }) => loadRow(`${source.name}, ${source.sampleRate} Hz`, loads[0] as Load)),
      ),
    );
    console.log(
      table(
        'Script on the main thread per animation frame, first run',
        ['source', 'frames', 'median', 'p95'],
        shared.map(({ source, loads: [load] }) => [
          source.name,
          String(load?.frames),
          ms(load?.scriptMedianMs ?? Number.NaN),
          ms(load?.scriptP95Ms ?? Number.NaN),
        ]),
      ),
    );
    const measured: [string, Latency][] = [
      ['example kit', await measureLatency(url, {}, (page) => playScene(page, SCENE))],
      ['fake device', await measureLatency(url, { captureWav: CAPTURE }, (page) => openInterface(page, 'top-bottom'))],
    ];
    console.log(
      table(
        "A hit's first sample to the screen; interface and display excluded",
        ['source', 'what', 'hits', 'median', 'p95'],
        measured.flatMap(([name, latency]) => [
          latencyRow(name, 'updated delay', latency.delayMs),
          latencyRow(name, 'updated sum', latency.sumMs),
        ]),
      ),
    );
  } finally {
    await served.close();
  }
}
