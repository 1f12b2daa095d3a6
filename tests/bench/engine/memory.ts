/** `npm run bench -- memory`: an hour of audio through the engine, an hour of readings through the page. */
import { readFileSync } from 'node:fs';
import { setFlagsFromString } from 'node:v8';
import { runInNewContext } from 'node:vm';
import { Engine } from '../../../src/dsp/engine';
import { readWav } from '../../../src/files/readWav';
import { READINGS_PER_SECOND } from '../../../src/protocol/messages';
import { readingFromFrame } from '../../../src/reading/frame';
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
      }
    }
    collect();
    collect();
    const { heapUsed, arrayBuffers } = process.memoryUsage();
    result.push({ minutes: stop, megabytes: (heapUsed + arrayBuffers) / 1e6, hits: reading.hits });
  }
  return result;
}

/** Largest distance from the first measurement, % of it. */
export function driftPercent(values: readonly number[]): number {
  return Math.max(...values.map((value) => Math.abs(value / values[0] - 1) * 100));
}

export async function memoryTables(): Promise<string> {
  const engine = measureEngineMemory([5, 15, 30, 60]);
  const drift = (values: { megabytes: number }[]): string =>
    `${driftPercent(values.map(({ megabytes }) => megabytes)).toFixed(1)} %`;
  const first = table(
    `Engine, an hour of audio: heap and array buffers after a collection; largest drift ${drift(engine)}`,
    ['minutes', 'hits', 'MB'],
    engine.map(({ minutes, hits, megabytes }) => [minutes, hits, megabytes.toFixed(2)]),
  );
  const served = await servePage();
  try {
    const hour = 3600 * READINGS_PER_SECOND;
    const page = await measurePageMemory(
      served.url,
      [0.1, 0.25, 0.5, 1].map((share) => share * hour),
      11,
    );
    const second = table(
      `Built page, an hour of readings: heap, array buffers and browser objects after a collection; largest drift ${drift(page)}`,
      ['readings', 'elements', 'MB'],
      page.map(({ readings, domNodes, megabytes }) => [readings, domNodes, megabytes.toFixed(2)]),
    );
    return `${first}\n${second}`;
  } finally {
    await served.close();
  }
}
