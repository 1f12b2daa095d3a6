/** The engine over files: real recordings against their references, demo scenes against their manifest. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { speedOfSound } from '../../src/dsp/acoustics';
import { Engine } from '../../src/dsp/engine';
import type { Reading } from '../../src/dsp/reading';
import { readWav } from '../../src/files/readWav';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../support/realRecordings';
import { table } from './table';

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
const BLOCK = 1024;

/** Readings after every block; stops once more than `hits` hits were heard. */
export function* follow(a: Float32Array, b: Float32Array, sampleRate: number, hits: number): Generator<Reading> {
  const engine = new Engine(sampleRate);
  for (let i = 0; i < a.length; i += BLOCK) {
    engine.push(a.subarray(i, i + BLOCK), b.subarray(i, i + BLOCK));
    const reading = engine.reading();
    if (reading.hits > hits) return;
    yield reading;
  }
  engine.flush();
  yield engine.reading();
}

function load(path: string): { a: Float32Array; b: Float32Array; sampleRate: number } {
  const wav = readWav(readFileSync(path));
  return { a: wav.read(0), b: wav.read(1), sampleRate: wav.sampleRate };
}

export function realTable(): string {
  if (!realRecordingsHere) return `\nReal recordings: skipped, ${REAL_ABSENT}.`;
  const rows = realRecordings().map((t) => {
    const { a, b, sampleRate } = load(realPath(t.file));
    let first = 0;
    let wrong = 0;
    let last: Reading | undefined;
    let at8: Reading | undefined;
    for (const r of follow(a, b, sampleRate, Number.POSITIVE_INFINITY)) {
      last = r;
      if (r.hits <= 8) at8 = r;
      if (r.state !== 'measured') continue;
      if (first === 0) first = r.hits;
      const off = Math.abs((r.delaySamples ?? Number.NaN) - (t.delaySamples ?? Number.NaN));
      if (t.delaySamples === undefined || off > (t.toleranceSamples ?? 0) || r.polarity !== t.polarity) wrong++;
    }
    const read = at8?.state === 'measured' ? `${at8.delaySamples?.toFixed(1)} ${at8.polarity}` : (at8?.state ?? '–');
    const end =
      last?.state === 'measured' ? `${last.delaySamples?.toFixed(1)} ${last.polarity}` : (last?.reason ?? '–');
    const truth = t.delaySamples === undefined ? '–' : `${t.delaySamples} ±${t.toleranceSamples} ${t.polarity}`;
    return [t.file, t.class, truth, read, end, first || '–', wrong];
  });
  return table(
    'Real recordings (samples at the file’s rate)',
    ['file', 'class', 'reference', 'after 8 hits', 'at the end', 'measured from hit', 'wrong readings'],
    rows,
  );
}

interface Kit {
  scenes: { id: string; file: string; pathCm: number | null; polarity: string | null; temperatureC: number }[];
}

export function demoTable(): string {
  const kit = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as Kit;
  const rows = kit.scenes.map((scene) => {
    const { a, b, sampleRate } = load(`${KIT}${scene.file}`);
    let last: Reading | undefined;
    for (const r of follow(a, b, sampleRate, Number.POSITIVE_INFINITY)) last = r;
    const path =
      last?.delaySamples == null ? null : (last.delaySamples / sampleRate) * speedOfSound(scene.temperatureC) * 100;
    const error = path === null || scene.pathCm === null ? '–' : ((path - scene.pathCm) * 10).toFixed(1);
    return [
      scene.id,
      scene.pathCm ?? 'none',
      scene.polarity ?? 'none',
      last?.state ?? '–',
      path?.toFixed(2) ?? '–',
      last?.polarity ?? '–',
      error,
    ];
  });
  return table('Demo scenes', ['scene', 'true cm', 'true polarity', 'state', 'read cm', 'polarity', 'error mm'], rows);
}
