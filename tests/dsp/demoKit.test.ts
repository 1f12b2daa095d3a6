/** The demo kit through the engine, against the geometry that its manifest states. */

import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';
import { pathCm } from '../../src/reading/acoustics';
import { flat } from '../support/readings/flat';

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
interface Scene {
  id: string;
  file: string;
  pathCm: number | null;
  polarity: string | null;
  temperatureC: number;
  perDrum: { id: string; delaySamples: number; polarity: string }[];
}
/** What is said where no answer exists. */
const NO_ANSWER: Record<string, [state: string, reason: string]> = {
  unrelated: ['unclear', 'no-common-signal'],
  'kick-low-end-driver': ['unclear', 'lows-only-b'],
  'snare-dead-input': ['no-signal', 'b-silent'],
};
const { scenes } = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as { scenes: Scene[] };

describe('demo scenes', () => {
  it.each(scenes)('$id: path within 5 mm, polarity right; or no answer', (scene) => {
    const wav = readWav(readFileSync(`${KIT}${scene.file}`));
    const engine = new Engine(wav.sampleRate);
    engine.push(wav.read(0), wav.read(1));
    engine.flush();
    const r = flat(engine.reading());
    if (scene.pathCm === null) {
      expect([r.state, r.reason]).toEqual(NO_ANSWER[scene.id]);
      expect(r.delaySamples).toBeNull();
      expect(r.drums.filter((drum) => drum.delaySamples !== null)).toEqual([]);
      return;
    }
    expect(r.state).toBe('measured');
    expect(r.polarity).toBe(scene.polarity);
    const read = pathCm((r.delaySamples ?? Number.NaN) / wav.sampleRate, scene.temperatureC);
    expect(Math.abs(read - scene.pathCm)).toBeLessThan(0.5);
  });

  it('the whole kit: each drum has its own answer, within 5 mm', () => {
    const scene = scenes.find((candidate) => candidate.id === 'kit-overheads') as Scene;
    const wav = readWav(readFileSync(`${KIT}${scene.file}`));
    const engine = new Engine(wav.sampleRate);
    engine.push(wav.read(0), wav.read(1));
    engine.flush();
    const { drums } = flat(engine.reading());
    expect(drums.map((drum) => [drum.state, drum.polarity])).toEqual(
      scene.perDrum.map((d) => ['measured', d.polarity]),
    );
    for (const [i, drum] of drums.entries()) {
      const off = (drum.delaySamples ?? Number.NaN) - (scene.perDrum[i]?.delaySamples ?? Number.NaN);
      expect(Math.abs(pathCm(off / wav.sampleRate, scene.temperatureC))).toBeLessThan(0.5);
    }
  });

  it('the low-end driver: the sum is answered all the same', () => {
    const wav = readWav(readFileSync(`${KIT}kick-low-end-driver.wav`));
    const engine = new Engine(wav.sampleRate);
    engine.push(wav.read(0), wav.read(1));
    engine.flush();
    const r = flat(engine.reading());
    expect(r.fuller).not.toBeNull();
    expect(r.fullerHighHz).toBeLessThan(260);
  });
});
