/** The demo kit's files: made again bit for bit, small enough, without a seam, and said truly in the manifest. */
import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, vi } from 'vitest';
import { EXAMPLE_FILE, exampleSheet } from '../../samples/example';
import { type KitManifest, type KitScene, makeManifestFile, makeSceneFile } from '../../samples/model/demoKit';
import { SCENES } from '../../samples/model/scenes';
import { PAIR_KIND_IDS } from '../../src/advice/plan/pairKinds';
import type { DemoScene } from '../../src/audio/link';
import { readWav } from '../../src/files/readWav';
import { pathCm } from '../../src/reading/acoustics';
import { readSheet } from '../../src/sheet/document/file';
import type { KitSheet } from '../../src/sheet/document/model';

// a scene takes a second to make; a busy machine may take several
vi.setConfig({ testTimeout: 30_000 });

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
const stored = (name: string) => new Uint8Array(readFileSync(KIT + name));
const manifest = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as KitManifest;
/** what the program reads is what the manifest holds */
const scenes: (DemoScene & KitScene)[] = manifest.scenes;

describe('the demo kit', () => {
  it.each(SCENES.map((scene) => [scene.id, scene] as const))('%s is made again bit for bit', (_id, scene) => {
    const { name, bytes } = makeSceneFile(scene);
    expect(Buffer.compare(bytes, stored(name))).toBe(0);
  });

  it('has a manifest that is made again bit for bit', () => {
    expect(new TextDecoder().decode(stored('kit.json'))).toBe(new TextDecoder().decode(makeManifestFile().bytes));
  });

  it('has a filled sheet that is made again from the audio, and that says what is true of the scenes', () => {
    const text = new TextDecoder().decode(stored(EXAMPLE_FILE));
    expect(exampleSheet(scenes, stored)).toBe(text);
    const { sheet } = readSheet(text) as { sheet: KitSheet };
    expect(sheet.pairs).toHaveLength(scenes.length - 2);
    for (const pair of sheet.pairs) {
      const scene = scenes.find(({ id }) => id === pair.id);
      expect(pair.before?.polarity ?? null).toBe(scene?.polarity);
      if (scene?.pathCm == null) expect(pair.before).toMatchObject({ sure: false, delayMs: null });
      else expect(Math.abs(pathCm((pair.before?.delayMs ?? 0) / 1000, 20) - scene.pathCm)).toBeLessThan(0.5);
      if (pair.after)
        expect([pair.after.polarity, pair.done?.inverted]).toEqual(['same', pair.id === 'kick-both-sides' ? 'a' : 'b']);
    }
  });

  it('holds nothing but its scenes, the manifest and the filled sheet, in 6 MB at most', () => {
    const names = readdirSync(KIT).sort();
    expect(names).toEqual([...scenes.map((scene) => scene.file), 'kit.json', EXAMPLE_FILE].sort());
    expect(names.reduce((sum, name) => sum + stored(name).length, 0)).toBeLessThanOrEqual(6e6);
  });

  it('speaks of known pair kinds, and gives all or nothing of an answer', () => {
    const kinds: readonly string[] = PAIR_KIND_IDS;
    for (const scene of scenes) {
      expect(kinds).toContain(scene.kind);
      const parts = [scene.pathCm, scene.delaySamples, scene.polarity];
      expect([0, 3]).toContain(parts.filter((part) => part === null).length);
      // the scene's answer is its first drum's
      const [first] = scene.perDrum;
      expect([first?.pathCm ?? null, first?.delaySamples ?? null, first?.polarity ?? null]).toEqual(parts);
    }
    expect(new Set(scenes.map((scene) => scene.id)).size).toBe(scenes.length);
  });
});

describe.each(scenes.map((scene) => [scene.id, scene] as const))('%s', (_id, scene) => {
  const bytes = stored(scene.file);
  const wav = readWav(bytes);
  const channels = [wav.read(0), wav.read(1)];

  it('is 44.1 kHz, stereo, 16 bit: what a browser passes on bit for bit', () => {
    expect(wav).toMatchObject({ sampleRate: 44100, channels: 2, bits: 16, coding: 'pcm', truncated: false });
    expect(scene.sampleRate).toBe(wav.sampleRate);
  });

  it('peaks between −11 and −3 dBFS and never clips; A and B differ; a dead input stays far below', () => {
    const peaks = channels.map((x) => 20 * Math.log10(x.reduce((most, v) => Math.max(most, Math.abs(v)), 0)));
    const dead = scene.id === 'snare-dead-input';
    if (dead) expect(peaks[1]).toBeLessThan(-50);
    for (const peak of dead ? peaks.slice(0, 1) : peaks) {
      expect(peak).toBeGreaterThan(-11);
      expect(peak).toBeLessThan(-3);
    }
    expect(Math.abs(peaks[0] - peaks[1])).toBeGreaterThan(1.5);
  });

  it('runs from its end into its beginning without a jump', () => {
    for (const x of channels) {
      const near = 2000;
      let largest = 0;
      for (let i = 1; i < near; i++) {
        largest = Math.max(largest, Math.abs(x[i] - x[i - 1]), Math.abs(x[x.length - i] - x[x.length - i - 1]));
      }
      expect(Math.abs(x[0] - x[x.length - 1])).toBeLessThanOrEqual(largest);
      // the level does not step either: it goes on falling as it fell before
      const levelDb = (from: number) => 10 * Math.log10(x.slice(from, from + 1000).reduce((sum, v) => sum + v * v, 0));
      const [before, last, first] = [x.length - 2000, x.length - 1000, 0].map(levelDb);
      expect(Math.abs(last - first - Math.max(0, before - last))).toBeLessThan(4);
    }
  });

  it('has no offset', () => {
    for (const x of channels) expect(Math.abs(x.reduce((sum, v) => sum + v, 0) / x.length)).toBeLessThan(1e-4);
  });
});
