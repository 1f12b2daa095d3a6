/** The engine over files: real recordings against their references, demo scenes against their manifest. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Engine } from '../../../src/dsp/engine';
import { type TuningChanges, tuned } from '../../../src/dsp/tuning/tuned';
import { readWav } from '../../../src/files/readWav';
import { speedOfSound } from '../../../src/reading/acoustics';
import type { Answer } from '../../cases/judge';
import { type Flat, flat } from '../../support/readings/flat';
import { Gauss } from '../../support/sound/gauss';
import { pinkNoise } from '../../support/sound/pinkNoise';
import {
  REAL_ABSENT,
  type RealRecording,
  realPath,
  realRecordings,
  realRecordingsHere,
} from '../../support/sound/realRecordings';
import { realCase } from '../cases/realCases';
import { table } from '../table';

const KIT = fileURLToPath(new URL('../../../samples/kit/', import.meta.url));
const BLOCK = 1024;

/** Readings after every block; stops once more than `hits` hits were heard. @param changes of the engine's tuning */
export function* follow(
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  hits: number,
  changes: TuningChanges,
): Generator<Flat> {
  const engine = new Engine(sampleRate, { tuning: tuned(changes) });
  for (let i = 0; i < a.length; i += BLOCK) {
    engine.push(a.subarray(i, i + BLOCK), b.subarray(i, i + BLOCK));
    const reading = flat(engine.reading());
    if (reading.hits > hits) return;
    yield reading;
  }
  engine.flush();
  yield flat(engine.reading());
}

function load(path: string): { a: Float32Array; b: Float32Array; sampleRate: number } {
  const wav = readWav(readFileSync(path));
  return { a: wav.read(0), b: wav.read(1), sampleRate: wav.sampleRate };
}

export function realTable(changes: TuningChanges = {}): string {
  if (!realRecordingsHere) return `\nReal recordings: skipped, ${REAL_ABSENT}.`;
  const rows = realRecordings().map((t) => {
    const { a, b, sampleRate, judge } = realCase(t, 'as recorded');
    let first = 0;
    let wrong = 0;
    let last: Flat | undefined;
    let at8: Flat | undefined;
    for (const r of follow(a, b, sampleRate, Number.POSITIVE_INFINITY, changes)) {
      last = r;
      if (r.hits <= 8) at8 = r;
      const sure = r.drums.length > 0 ? r.drums.map(asAnswer(r)) : [asAnswer(r)(r)];
      const answers = sure.filter((one) => one !== null);
      if (answers.length > 0 && first === 0) first = r.hits;
      wrong += answers.filter((answer) => !judge.judge(answer).right).length;
    }
    return [t.file, t.class, reference(t), told(at8), told(last), first || '–', wrong];
  });
  return table(
    'Real recordings (samples at the file’s rate)',
    ['file', 'class', 'reference', 'after 8 hits', 'at the end', 'measured from hit', 'wrong readings'],
    rows,
  );
}

type OneDrum = Pick<Flat, 'state' | 'delaySamples' | 'polarity'>;

const asAnswer =
  (r: Flat) =>
  ({ state, delaySamples, polarity }: OneDrum): Answer | null =>
    state === 'measured' && delaySamples !== null && polarity !== null
      ? { polarity, delaySamples, atSeconds: r.streamSeconds, hitSeconds: [] }
      : null;

/** Every drum's answer, or why there is none. */
function told(r: Flat | undefined): string {
  const sure = (r?.drums ?? []).filter((drum) => drum.state === 'measured');
  if (sure.length > 0) return sure.map((drum) => `${drum.delaySamples?.toFixed(1)} ${drum.polarity}`).join(', ');
  return r?.reason ?? r?.state ?? '–';
}

function reference(t: RealRecording): string {
  if (t.delaySamples !== undefined) return `${t.delaySamples} ±${t.toleranceSamples} ${t.polarity}`;
  return (
    Object.entries(t.perDrum ?? {})
      .map(([drum, { delaySamples }]) => `${drum} ${delaySamples}`)
      .join(', ') || '–'
  );
}

const NOISE_HITS = 12;

/** The real recordings with independent pink noise on both channels: answered, right, and ever wrong within 12 hits. */
export function noiseTable(seeds: readonly number[], changes: TuningChanges = {}): string {
  if (!realRecordingsHere) return `\nReal recordings in noise: skipped, ${REAL_ABSENT}.`;
  const list = realRecordings()
    .filter((t) => t.class === 'firm')
    .map((t) => ({ t, take: load(realPath(t.file)) }));
  const rows = [-60, -50, -40].map((noiseDb) => {
    const rightBySeed = seeds.map(() => 0);
    let answered = 0;
    let wrong = 0;
    for (const [i, seed] of seeds.entries()) {
      const draw = new Gauss(seed);
      for (const { t, take } of list) {
        const { end, everWrong } = readNoisy(t, take, noiseDb, draw, changes);
        if (end.state === 'measured') answered++;
        if (end.state === 'measured' && isRight(end, t)) rightBySeed[i] = (rightBySeed[i] as number) + 1;
        if (everWrong) wrong++;
      }
    }
    const right = rightBySeed.reduce((sum, n) => sum + n, 0);
    const tried = seeds.length * list.length;
    return [
      `${noiseDb} dB`,
      tried,
      answered,
      right,
      `${((100 * right) / tried).toFixed(0)} %`,
      rightBySeed.join(' '),
      wrong,
    ];
  });
  return table(
    `Firm real recordings with pink noise, re each channel’s peak, after ${NOISE_HITS} hits (seeds ${seeds.join(' ')})`,
    ['noise RMS', 'files × seeds', 'answered', 'right', '', 'right by seed', 'ever wrong'],
    rows,
  );
}

function readNoisy(
  t: RealRecording,
  { a, b, sampleRate }: ReturnType<typeof load>,
  noiseDb: number,
  draw: Gauss,
  changes: TuningChanges,
): { end: Flat; everWrong: boolean } {
  const noisy = (x: Float32Array): Float32Array => {
    const gain = 10 ** (noiseDb / 20) * x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
    const noise = pinkNoise(x.length, () => draw.next());
    return x.map((v, i) => v + gain * (noise[i] as number));
  };
  let end: Flat | undefined;
  let everWrong = false;
  for (const r of follow(noisy(a), noisy(b), sampleRate, NOISE_HITS, changes)) {
    end = r;
    if (r.state === 'measured' && !isRight(r, t)) everWrong = true;
  }
  if (!end) throw new Error(`${t.file}: no reading`);
  return { end, everWrong };
}
const isRight = (r: Flat, t: RealRecording): boolean =>
  r.polarity === t.polarity &&
  Math.abs((r.delaySamples ?? Number.NaN) - (t.delaySamples ?? Number.NaN)) <= (t.toleranceSamples ?? 0);

interface Kit {
  scenes: { id: string; file: string; pathCm: number | null; polarity: string | null; temperatureC: number }[];
}

export function demoTable(changes: TuningChanges = {}): string {
  const kit = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as Kit;
  const rows = kit.scenes.map((scene) => {
    const { a, b, sampleRate } = load(`${KIT}${scene.file}`);
    let last: Flat | undefined;
    for (const r of follow(a, b, sampleRate, Number.POSITIVE_INFINITY, changes)) last = r;
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
