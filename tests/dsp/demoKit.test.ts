/** The demo kit through the engine, against the geometry that its manifest states. */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { pathCm } from '../../src/dsp/acoustics';
import { Engine } from '../../src/dsp/engine';
import { readWav } from '../../src/files/readWav';

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
interface Scene {
  id: string;
  file: string;
  pathCm: number | null;
  polarity: string | null;
  temperatureC: number;
}
const { scenes } = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as { scenes: Scene[] };

describe('demo scenes', () => {
  it.each(scenes)('$id: path within 5 mm, polarity right; or no answer', (scene) => {
    const wav = readWav(readFileSync(`${KIT}${scene.file}`));
    const engine = new Engine(wav.sampleRate);
    engine.push(wav.read(0), wav.read(1));
    engine.flush();
    const r = engine.reading();
    if (scene.pathCm === null) {
      expect(r.state).toBe('unclear');
      expect(r.delaySamples).toBeNull();
      return;
    }
    expect(r.state).toBe('measured');
    expect(r.polarity).toBe(scene.polarity);
    const read = pathCm((r.delaySamples ?? Number.NaN) / wav.sampleRate, scene.temperatureC);
    expect(Math.abs(read - scene.pathCm)).toBeLessThan(0.5);
  });
});
