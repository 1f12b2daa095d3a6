/** Nobody touches anything: an answer that holds doesn't come and go, and nothing is said to move. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { readWav } from '../../src/files/readWav';
import { Gauss } from '../support/sound/gauss';
import { pinkNoise } from '../support/sound/pinkNoise';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../support/sound/realRecordings';
import { steadiness } from '../support/sound/steadiness';

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
const LOOP_SECONDS = 20;
const NOISE_DB = -60;
const NOISE_SEED = 10;

/** Its first arrivals scatter over 10 samples: what it says is near the limit of what is said at all. */
const MAY_BE_LOST: Record<string, number> = { 'hihat-closed-overhead.wav': 1 };

describe.skipIf(!realRecordingsHere)(`real recordings${realRecordingsHere ? '' : ` (${REAL_ABSENT})`}`, () => {
  const list = realRecordingsHere ? realRecordings() : [];

  for (const t of list)
    it(`${t.file}: stays measured once it is, stays where it is, and never moves`, () => {
      const wav = readWav(readFileSync(realPath(t.file)));
      const { lost, jumps, moves } = steadiness(wav.read(0), wav.read(1), wav.sampleRate);
      expect(moves).toBe(0);
      expect(jumps).toBe(0);
      expect(lost).toBeLessThanOrEqual(MAY_BE_LOST[t.file] ?? 0);
    });

  for (const t of list.filter((r) => r.class === 'firm'))
    it(`${t.file} with pink noise at ${NOISE_DB} dB re peak: the same`, () => {
      const wav = readWav(readFileSync(realPath(t.file)));
      const draw = new Gauss(NOISE_SEED);
      const [a, b] = [0, 1].map((channel) => {
        const x = wav.read(channel);
        const gain = 10 ** (NOISE_DB / 20) * x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
        const noise = pinkNoise(x.length, () => draw.next());
        return x.map((v, i) => v + gain * (noise[i] as number));
      }) as [Float32Array, Float32Array];
      const { lost, jumps, moves } = steadiness(a, b, wav.sampleRate);
      expect([lost, jumps, moves]).toEqual([0, 0, 0]);
    });
});

describe(`demo scenes, looped to ${LOOP_SECONDS} s`, () => {
  const { scenes } = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as { scenes: { id: string; file: string }[] };

  it.each(scenes)('$id', ({ file }) => {
    const wav = readWav(readFileSync(`${KIT}${file}`));
    const looped = (x: Float32Array): Float32Array =>
      Float32Array.from({ length: LOOP_SECONDS * wav.sampleRate }, (_, i) => x[i % x.length] as number);
    const { lost, jumps, moves } = steadiness(looped(wav.read(0)), looped(wav.read(1)), wav.sampleRate);
    expect([lost, jumps, moves]).toEqual([0, 0, 0]);
  });
});
