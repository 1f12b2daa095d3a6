/** How far a delay is looked for: a longer reach finds what lies beyond the shorter one, and changes nothing within it. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { PAIR_KIND_IDS, pairKind } from '../../src/advice/plan/pairKinds';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';
import { type Flat, flat } from '../support/readings/flat';
import { REAL_ABSENT, realPath, realRecordings, realRecordingsHere } from '../support/sound/realRecordings';

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
/** the reaches of all pair kinds, the shortest first */
const reaches = [...new Set(PAIR_KIND_IDS.map((id) => pairKind(id).maxLagMs))].sort((p, q) => p - q);
const [shortest, ...longer] = reaches as [number, ...number[]];

interface Pair {
  a: Float32Array;
  b: Float32Array;
  sampleRate: number;
}

function load(path: string): Pair {
  const wav = readWav(readFileSync(path));
  return { a: wav.read(0), b: wav.read(1), sampleRate: wav.sampleRate };
}

/** A reading ten times a second, and the last one. */
function readings({ a, b, sampleRate }: Pair, maxLagMs: number): Flat[] {
  const engine = new Engine(sampleRate, { maxLagMs });
  const step = Math.round(sampleRate / 10);
  const list: Flat[] = [];
  for (let i = 0; i < a.length; i += step) {
    engine.push(a.subarray(i, i + step), b.subarray(i, i + step));
    list.push(flat(engine.reading()));
  }
  engine.flush();
  return [...list, flat(engine.reading())];
}

it('pair kinds have more than one reach', () => expect(longer.length).toBeGreaterThan(0));

describe.skipIf(!realRecordingsHere)(`real recordings${realRecordingsHere ? '' : ` (${REAL_ABSENT})`}`, () => {
  const list = realRecordingsHere ? realRecordings() : [];

  for (const t of list.filter((r) => r.class === 'firm' || r.class === 'conflict'))
    it(`${t.file}: one answer, whatever the pair kind, and never a wrong one`, () => {
      const pair = load(realPath(t.file));
      for (const reach of reaches) {
        const all = readings(pair, reach);
        for (const r of [...all.filter((one) => one.state === 'measured'), all.at(-1) as Flat]) {
          expect(r.state, `${reach} ms`).toBe('measured');
          expect(r.polarity, `${reach} ms`).toBe(t.polarity);
          const off = Math.abs((r.delaySamples ?? Number.NaN) - (t.delaySamples ?? Number.NaN));
          expect(off, `${reach} ms`).toBeLessThanOrEqual(t.toleranceSamples ?? 0);
        }
      }
      const ends = reaches.map((reach) => readings(pair, reach).at(-1)?.delaySamples ?? Number.NaN);
      expect(Math.max(...ends) - Math.min(...ends)).toBeLessThan(1);
    });

  for (const t of list.filter((r) => r.class !== 'firm' && r.class !== 'conflict'))
    it(`${t.file}: the same state, whatever the pair kind`, () => {
      const pair = load(realPath(t.file));
      const states = reaches.map((reach) => readings(pair, reach).at(-1)?.state);
      expect(new Set(states).size).toBe(1);
    });
});

describe.each(['snare-overhead', 'kick-both-sides'])('%s', (scene) => {
  const pair = load(`${KIT}${scene}.wav`);
  const near = readings(pair, shortest).at(-1) as Flat;
  const later = (ms: number): { pair: Pair; samples: number } => {
    const samples = Math.round((ms / 1000) * pair.sampleRate);
    return { pair: { ...pair, b: pair.b.map((_, i) => pair.b[i - samples] ?? 0) }, samples };
  };

  it.each(longer)('a reach of %d ms reads what lies within the shorter one to the last digit', (reach) => {
    expect(near.state).toBe('measured');
    const far = readings(pair, reach).at(-1) as Flat;
    expect(far).toMatchObject({ state: near.state, polarity: near.polarity, hitsUsed: near.hitsUsed });
    expect(far.delaySamples).toBe(near.delaySamples);
    expect(far.uncertaintySamples).toBe(near.uncertaintySamples);
  });

  it.each([10, 10.8, 14, 20, 27])('B %d ms later: found with the longest reach', (ms) => {
    const { pair: late, samples } = later(ms);
    const far = readings(late, longer.at(-1) as number).at(-1) as Flat;
    expect(far.state).toBe('measured');
    expect(far.polarity).toBe(near.polarity);
    expect(Math.abs((far.delaySamples ?? Number.NaN) - samples - (near.delaySamples ?? Number.NaN))).toBeLessThan(1);
  });

  it('B 20 ms later: not answered with the shortest one', () => {
    for (const r of readings(later(20).pair, shortest)) expect(r.state).not.toBe('measured');
  });
});
