/** A recording at 96 kHz for the browser bench, and the engine's time for each quantum at every rate, in Node. */
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { performance } from 'node:perf_hooks';
import { fileURLToPath } from 'node:url';
import { Engine } from '../../../src/dsp/engine';
import { readWav } from '../../../src/files/readWav';
import { writeWav } from '../../../src/files/writeWav';
import { percentile } from '../../support/page/trace';
import { resample } from '../../support/sound/resample';
import { table } from '../table';

const QUANTUM_FRAMES = 128;
const RATES = [44_100, 48_000, 96_000];
const WARM_SECONDS = 20;
const TIMED_SECONDS = 30;

/** A demo scene, round and round, at another rate. */
function sceneAt(scene: string, sampleRate: number, seconds: number): [Float32Array, Float32Array] {
  const wav = readWav(readFileSync(new URL(`../../../samples/kit/${scene}.wav`, import.meta.url)));
  return [0, 1].map((channel) => {
    const once = new Float32Array(wav.frames);
    wav.readInto(channel, 0, once);
    // the middle one of three rounds: no edge
    const thrice = new Float32Array(3 * wav.frames);
    for (let i = 0; i < 3; i++) thrice.set(once, i * wav.frames);
    const made = sampleRate === wav.sampleRate ? thrice : resample(thrice, wav.sampleRate, sampleRate, 'converter');
    const round = Math.round((wav.frames * sampleRate) / wav.sampleRate);
    return Float32Array.from({ length: Math.round(seconds * sampleRate) }, (_, i) => made[round + (i % round)]);
  }) as [Float32Array, Float32Array];
}

/** @returns absolute path of a 16-bit stereo WAV */
export function recordingAt(scene: string, sampleRate: number, seconds: number): string {
  const dir = fileURLToPath(new URL('../../../.cache', import.meta.url));
  mkdirSync(dir, { recursive: true });
  const path = join(dir, `${scene}-${sampleRate}.wav`);
  writeFileSync(path, writeWav(sceneAt(scene, sampleRate, seconds), sampleRate, 's16'));
  return path;
}

/** Time of engine.push for one quantum, share of the quantum. */
export function engineTable(): string {
  const rows = RATES.map((sampleRate) => {
    const [a, b] = sceneAt('snare-top-bottom', sampleRate, WARM_SECONDS + TIMED_SECONDS);
    const engine = new Engine(sampleRate);
    const budgetMs = (QUANTUM_FRAMES / sampleRate) * 1000;
    const percent: number[] = [];
    for (let at = 0; at + QUANTUM_FRAMES <= a.length; at += QUANTUM_FRAMES) {
      const began = performance.now();
      engine.push(a.subarray(at, at + QUANTUM_FRAMES), b.subarray(at, at + QUANTUM_FRAMES));
      if (at >= WARM_SECONDS * sampleRate) percent.push(((performance.now() - began) / budgetMs) * 100);
    }
    const share = (p: number): string => `${percentile(percent, p).toFixed(1)} %`;
    return [sampleRate, percent.length, share(0.5), share(0.95), share(1)];
  });
  return table(
    'engine.push in Node, share of one 128-frame quantum',
    ['rate Hz', 'quanta', 'median', 'p95', 'max, preemption included'],
    rows,
  );
}
