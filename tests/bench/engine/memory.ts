/** `npm run bench -- memory`: eight hours of audio through the engine, eight hours of readings through the page, faster than real time. */
import { readFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Engine } from '../../../src/dsp/engine';
import { readWav } from '../../../src/files/readWav';
import { READINGS_PER_SECOND } from '../../../src/protocol/messages';
import { readingFromFrame } from '../../../src/reading/frame';
import { answerOf } from '../../../src/reading/reading';
import { servePage } from '../../support/page/servePage';
import { measurePageMemory } from '../page/browserMemory';
import { table } from '../table';

const SCENES = ['snare-top-bottom', 'kick-both-sides', 'snare-overhead', 'unrelated'];
const SCENE_SECONDS = 60;
const BLOCK_FRAMES = 128;

export interface EngineMemory {
  minutes: number;
  /** heap and array buffers after a full collection */
  megabytes: number;
  hits: number;
  /** of the newest reading */
  state: string;
  polarity: string | null;
  delaySamples: number | null;
  /** the trace's time less that of the samples that went in, s */
  secondsOff: number;
}

/** @param stops minutes at which the memory is measured, ascending; the scenes take turns, a minute each */
export function measureEngineMemory(stops: readonly number[]): EngineMemory[] {
  setFlagsFromString('--expose-gc');
  const collect = runInNewContext('gc') as () => void;
  const sounds = SCENES.map((scene) => {
    const wav = readWav(readFileSync(new URL(`../../../samples/kit/${scene}.wav`, import.meta.url)));
    const a = new Float32Array(wav.frames);
    const b = new Float32Array(wav.frames);
    wav.readInto(0, 0, a);
    wav.readInto(1, 0, b);
    return { a, b, frames: wav.frames, sampleRate: wav.sampleRate };
  });
  const sampleRate = sounds[0].sampleRate;
  const engine = new Engine(sampleRate);
  const a = new Float32Array(BLOCK_FRAMES);
  const b = new Float32Array(BLOCK_FRAMES);
  const perReading = Math.ceil(sampleRate / READINGS_PER_SECOND / BLOCK_FRAMES);
  const result: EngineMemory[] = [];
  let reading = engine.reading();
  let block = 0;
  let shownAt = 0;
  for (const stop of stops) {
    for (; block * BLOCK_FRAMES < stop * 60 * sampleRate; block++) {
      const at = block * BLOCK_FRAMES;
      const sound = sounds[Math.floor(at / (SCENE_SECONDS * sampleRate)) % sounds.length];
      for (let i = 0; i < BLOCK_FRAMES; i++) {
        a[i] = sound.a[(at + i) % sound.frames];
        b[i] = sound.b[(at + i) % sound.frames];
      }
      engine.push(a, b);
      if (block % perReading === 0) {
        const frame = new Float64Array(engine.frameLength);
        engine.writeFrame(frame);
        reading = readingFromFrame(frame);
        shownAt = block;
      }
    }
    collect();
    collect();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    const { state, polarity, delaySamples } = answerOf(reading);
    const secondsOff = reading.trace.timeSeconds - ((shownAt + 1) * BLOCK_FRAMES) / sampleRate;
    const megabytes = (heapUsed + arrayBuffers) / 1e6;
    result.push({ minutes: stop, megabytes, hits: reading.hits, state, polarity, delaySamples, secondsOff });
  }
  return result;
}

/** Largest distance from the first measurement, % of it. */
export function driftPercent(values: readonly number[]): number {
  return Math.max(...values.map((value) => Math.abs(value / values[0] - 1) * 100));
}

/** The first example's minute comes last before each. */
const ENGINE_MINUTES = [5, 61, 241, 481];
const PAGE_HOURS = [0.1, 1, 4, 8];

export async function memoryTables(): Promise<string> {
  const engine = measureEngineMemory(ENGINE_MINUTES);
  const drift = (values: { megabytes: number }[]): string =>
    `${driftPercent(values.map(({ megabytes }) => megabytes)).toFixed(1)} %`;
  const first = table(
    `Engine, eight hours of audio: heap and array buffers after a collection; largest drift ${drift(engine)}`,
    ['minutes', 'hits', 'MB', 'reading', 'delay, samples', 'trace off by'],
    engine.map((one) => [one.minutes, one.hits, one.megabytes.toFixed(2), ...shownColumns(one)]),
  );
  const served = await servePage();
  try {
    const hour = 3600 * READINGS_PER_SECOND;
    const page = await measurePageMemory(
      served.url,
      PAGE_HOURS.map((hours) => hours * hour),
      11,
    );
    const second = table(
      `Built page, eight hours of readings: heap, array buffers and browser objects after a collection; largest drift ${drift(page)}`,
      ['readings', 'elements', 'MB', 'reading', 'delay, samples', 'trace off by'],
      page.map((one) => [one.readings, one.domNodes, one.megabytes.toFixed(2), ...shownColumns(one)]),
    );
    return `${first}\n${second}`;
  } finally {
    await served.close();
  }
}

type Shown = Pick<EngineMemory, 'state' | 'polarity' | 'delaySamples' | 'secondsOff'>;

const shownColumns = ({ state, polarity, delaySamples, secondsOff }: Shown): string[] => [
  `${state} ${polarity ?? ''}`,
  delaySamples?.toFixed(3) ?? '–',
  `${(secondsOff * 1000).toFixed(3)} ms`,
];
