/**
 * The demo kit's scenes with drawn distances, microphones, striking places, bleed, room and noise: how often an answer
 * comes, and how often it is wrong. Thresholds were chosen with seeds 1000–1119; quote others.
 */

import { render, trueDelaySamples, truePolarity } from '../../../samples/model/render';
import type { Point } from '../../../samples/model/room';
import { isDrum, type Scene, type SceneMicrophone } from '../../../samples/model/scene';
import { SCENES, TEMPERATURE_C } from '../../../samples/model/scenes';
import type { TuningChanges } from '../../../src/dsp/tuning/tuned';
import { speedOfSound } from '../../../src/reading/acoustics';
import type { Flat } from '../../support/readings/flat';
import { Gauss } from '../../support/sound/gauss';
import { table } from '../table';
import { follow } from './files';

const SAMPLE_RATE = 44100;
const GROSS_CM = 2.4;
const LOOP_SECONDS = 5.5;
const BLOWS = 8;
const BLOWS_BEHIND = 4;
/** one drum, five pairs of microphones */
const BASES = ['snare-top-bottom', 'snare-two-tops', 'kick-inside-outside', 'kick-both-sides', 'snare-overhead'];

function drawMicrophone(m: SceneMicrophone, struck: Point, draw: Gauss, noiseDb: number): SceneMicrophone {
  const u = (low: number, high: number): number => low + (high - low) * draw.uniform();
  const farther = u(0.7, 1.5);
  const at = m.at.map((x, i) => (struck[i] as number) + (x - (struck[i] as number)) * farther) as unknown as Point;
  return {
    ...m,
    at,
    response: {
      lowCutHz: u(25, 115),
      lowCutOrder: draw.uniform() < 0.5 ? 1 : 2,
      highCutHz: u(9000, 20000),
      highCutOrder: draw.uniform() < 0.5 ? 1 : 2,
      presenceHz: u(2500, 10500),
      presenceDb: u(0, 6),
    },
    noiseDbfs: m.peakDbfs + noiseDb + u(-5, 5),
    detours: m.detours.map((d) => ({ extraCm: d.extraCm * u(0.7, 1.7), share: d.share * u(0.5, 2.5) })),
    room: m.room ? { ...m.room, tailDb: m.room.tailDb + u(-3, 6) } : null,
  };
}

/** A drawn scene; its noise is −80…−40 dB re each microphone's peak, its bleed −30…−8 dB. */
export function drawScene(seed: number): { scene: Scene; noiseDb: number } {
  const draw = new Gauss(Math.imul(seed, 2654435761));
  for (let i = 0; i < 10; i++) draw.uniform();
  const answerable = SCENES.filter((s) => BASES.includes(s.id));
  const base = answerable[Math.floor(draw.uniform() * answerable.length)] as Scene;
  const struck = base.sources.find((s) => s.id === base.struck);
  if (!struck || !isDrum(struck)) throw new Error(`scene ${base.id} has no drum struck`);
  const noiseDb = -80 + 40 * draw.uniform();
  const bleedDb = -30 + 22 * draw.uniform();
  const scatterCm = 0.3 + 2.5 * draw.uniform();
  const forceDb = 1 + 5 * draw.uniform();
  const scene: Scene = {
    ...base,
    seconds: LOOP_SECONDS,
    a: drawMicrophone(base.a, struck.place, draw, noiseDb),
    b: drawMicrophone(base.b, struck.place, draw, noiseDb),
    sources: base.sources.map((s) => {
      if (!isDrum(s)) return { ...s, blows: BLOWS, levelDb: s.levelDb + 14 * draw.uniform() - 4 };
      return s.id === base.struck
        ? { ...s, blows: BLOWS, scatterCm, forceDb }
        : { ...s, blows: BLOWS_BEHIND, levelDb: bleedDb };
    }),
  };
  return { scene, noiseDb };
}

/** Rows by noise, over seeds from…to−1. */
export function drawnTable(from: number, to: number, changes: TuningChanges = {}): string {
  const groups = new Map<string, { n: number; errors: number[]; wrong: number; within: number; known: number }>();
  for (let seed = from; seed < to; seed++) {
    const { scene, noiseDb } = drawScene(seed);
    const sound = render(scene, seed);
    const twice = (x: Float64Array): Float32Array =>
      Float32Array.from({ length: 2 * x.length }, (_, i) => x[i % x.length] as number);
    let last: Flat | undefined;
    for (const r of follow(twice(sound.a), twice(sound.b), SAMPLE_RATE, 8, changes)) last = r;
    const name = noiseDb < -60 ? '−80…−60 dB' : '−60…−40 dB';
    const group = groups.get(name) ?? { n: 0, errors: [], wrong: 0, within: 0, known: 0 };
    groups.set(name, group);
    group.n++;
    const truth = trueDelaySamples(scene);
    if (last?.state !== 'measured' || last.delaySamples === null || truth === null) continue;
    const off = Math.abs(last.delaySamples - truth);
    group.errors.push((off / SAMPLE_RATE) * speedOfSound(TEMPERATURE_C) * 100);
    if (last.polarity !== truePolarity(scene)) group.wrong++;
    if (last.uncertaintySamples === null) continue;
    group.known++;
    if (off <= last.uncertaintySamples) group.within++;
  }
  const rows = [...groups].sort().map(([name, g]) => {
    const sorted = [...g.errors].sort((x, y) => x - y);
    const at = (share: number): string => (sorted[Math.floor(share * (sorted.length - 1))] ?? Number.NaN).toFixed(2);
    return [
      name,
      g.n,
      sorted.length,
      g.wrong,
      sorted.filter((e) => e > GROSS_CM).length,
      at(0.5),
      at(0.95),
      `${g.within} of ${g.known}`,
    ];
  });
  return table(
    `Drawn scenes, seeds ${from}–${to - 1}, after 8 hits`,
    [
      'noise re peak',
      'scenes',
      'answered',
      'wrong polarity',
      `> ${GROSS_CM} cm off`,
      'median cm',
      '95 % cm',
      'within uncertainty',
    ],
    rows,
  );
}
