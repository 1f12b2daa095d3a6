/** `npm run bench -- browser`: the built page in real Chromium; prints tables. */
import { fileURLToPath } from 'node:url';
import { openInterface } from '../support/interface';
import { playScene } from '../support/screen';
import { servePage } from '../support/servePage';
import { percentile } from '../support/trace';
import { type Latency, measureLatency } from './browserLatency';
import { type Load, makeGarbage, traceLoad } from './browserLoad';
import { table } from './table';

const SCENE = 'snare-top-bottom';
/** the same sound through getUserMedia */
const CAPTURE = fileURLToPath(new URL(`../../samples/kit/${SCENE}.wav`, import.meta.url));
const TRACED_SECONDS = 30;

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
  ];
}

function latencyRow(name: string, what: string, values: readonly number[]): string[] {
  return [name, what, String(values.length), ms(percentile(values, 0.5)), ms(percentile(values, 0.95))];
}

export async function runBrowserBench(): Promise<void> {
  const served = await servePage();
  try {
    const { url } = served;
    const seconds = TRACED_SECONDS;
    const demo = await traceLoad(url, {}, (page) => playScene(page, SCENE), { seconds });
    const live = await traceLoad(url, { captureWav: CAPTURE }, (page) => openInterface(page, 'top-bottom'), {
      seconds,
    });
    const control = await traceLoad(url, {}, makeGarbage, { seconds: 5, settleSeconds: 1 });
    console.log(
      table(
        `process() on the audio thread, share of one 128-frame quantum at 44.1 kHz; garbage collections in ${seconds} s`,
        ['source', 'calls', 'median', 'p95', 'max, preemption included', 'collections'],
        [
          loadRow('demo scene', demo),
          loadRow('fake device', live),
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
