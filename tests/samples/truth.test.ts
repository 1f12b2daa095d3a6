/**
 * What the manifest claims, checked without the program's engine: against plain geometry, and against the sound itself by
 * brute-force alignment of the first 0.5 ms of every attack.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it, vi } from 'vitest';
import { KIT_SEED, type KitManifest } from '../../samples/model/demoKit';
import { perform, render } from '../../samples/model/render';
import { isDrum, type Scene } from '../../samples/model/scene';
import { SCENES } from '../../samples/model/scenes';
import { readWav } from '../../src/files/readWav';
import { type AttackFit, firstAbove, fitAttack, median, tiltDb } from './attack';

// a scene takes a second to make; a busy machine may take several
vi.setConfig({ testTimeout: 30_000 });

const KIT = fileURLToPath(new URL('../../samples/kit/', import.meta.url));
const manifest = JSON.parse(readFileSync(`${KIT}kit.json`, 'utf8')) as KitManifest;
const RATE = 44100;
/** m/s, ideal gas at 20 °C: O. Cramer, JASA 93 (1993) 2510–2516 gives 343.36 dry; 331.3·√(1+20/273.15) = 343.21 */
const SPEED = 343.21;
const MM_PER_SAMPLE = (1000 * SPEED) / RATE;

/** What the scenario says: path B − A, cm, and polarity. */
const SCENARIO: Record<string, [pathCm: number, polarity: 'same' | 'inverted'] | null> = {
  'snare-top-bottom': [2.6, 'inverted'],
  'snare-two-tops': [4, 'same'],
  'kick-inside-outside': [35, 'same'],
  'kick-both-sides': [28, 'inverted'],
  'snare-overhead': [95, 'same'],
  'floor-tom-overhead': [82, 'same'],
  'kit-overheads': [24, 'same'],
  'kick-low-end-driver': null,
  'snare-dead-input': null,
  unrelated: null,
};

const answerable = SCENES.filter((scene) => scene.struck !== null).map((scene) => [scene.id, scene] as const);

function claimed(id: string) {
  const found = manifest.scenes.find((scene) => scene.id === id);
  if (!found || found.delaySamples === null || found.pathCm === null) throw new Error(`${id} has no answer`);
  return { ...found, delaySamples: found.delaySamples, pathCm: found.pathCm };
}

function struckDrum(scene: Scene) {
  const source = scene.sources.find((candidate) => candidate.id === scene.struck);
  if (!source || !isDrum(source)) throw new Error(`${scene.id}: nothing is struck`);
  return source;
}

/** Every blow's attack, B fitted onto A. `share` of the peak is what tells it from other drums' tails. */
function fits(a: Float64Array, b: Float64Array, scene: Scene, share = 0.03): AttackFit[] {
  const blows = perform(scene, KIT_SEED).blows.get(struckDrum(scene).id) ?? [];
  return blows.map((blow) => {
    // the blow's own time serves only to know where to look, give or take 10 ms
    const near = Math.round(blow.timeSeconds * RATE);
    const peak = a.subarray(near - 441, near + 1323).reduce((most, v) => Math.max(most, Math.abs(v)), 0);
    const onset = firstAbove(a, near - 441, near + 1323, share * peak);
    return fitAttack(a, b, onset, 20, 22, -90, 160);
  });
}

describe('the manifest', () => {
  it.each(Object.entries(SCENARIO))('%s says what the scenario says', (id, expected) => {
    const scene = manifest.scenes.find((candidate) => candidate.id === id);
    if (!expected) expect(scene).toMatchObject({ pathCm: null, delaySamples: null, polarity: null });
    else {
      expect(scene?.pathCm).toBeCloseTo(expected[0], 6);
      expect(scene?.polarity).toBe(expected[1]);
    }
  });

  it('knows no scene beyond these', () => {
    expect(manifest.scenes.map((scene) => scene.id)).toEqual(Object.keys(SCENARIO));
  });

  it.each(answerable)('%s follows from where things stand', (id, scene) => {
    const { place } = struckDrum(scene);
    const metres = (p: readonly number[]) => Math.sqrt(p.reduce((sum, v, i) => sum + (v - place[i]) ** 2, 0));
    const path = metres(scene.b.at) - metres(scene.a.at);
    expect(claimed(id).pathCm).toBeCloseTo(100 * path, 6);
    expect(Math.abs(claimed(id).delaySamples - (path / SPEED) * RATE)).toBeLessThan(0.01);
    // opposite sides of the head that is struck start in opposite directions
    const inwards = (p: readonly number[]) =>
      p.reduce((sum, v, i) => sum + (v - place[i]) * struckDrum(scene).drum.axis[i], 0);
    expect(claimed(id).polarity).toBe(inwards(scene.a.at) > 0 === inwards(scene.b.at) > 0 ? 'same' : 'inverted');
  });
});

describe.each(answerable)('%s', (id, scene) => {
  it('arrives as claimed in the file: every hit has that polarity, the median is within 5 mm', () => {
    const wav = readWav(new Uint8Array(readFileSync(`${KIT}${claimed(id).file}`)));
    check(fits(Float64Array.from(wav.read(0)), Float64Array.from(wav.read(1)), scene), 0.05);
  });

  it('arrives as claimed without noise, bleed, room and microphones, within 3 mm', () => {
    const bare = { noise: false, bleed: false, room: false, microphones: false };
    const { a, b } = render(scene, KIT_SEED, bare);
    const found = fits(a, b, scene);
    check(found, 0.03);
    expect(Math.abs(middle(found)) * MM_PER_SAMPLE).toBeLessThan(3);
  });

  it('is quiet before it arrives: 70 dB below the peak, and loud within 0.15 ms', () => {
    const alone = {
      ...scene,
      alsoStruck: [],
      sources: scene.sources.map((s) => (s.id === scene.struck ? { ...s, blows: 1 } : s)),
    };
    const blow = perform(alone, KIT_SEED).blows.get(struckDrum(scene).id)?.[0];
    if (!blow) throw new Error('no blow');
    const { a, b } = render(alone, KIT_SEED, { noise: false, bleed: false });
    for (const [x, at] of [
      [a, scene.a.at],
      [b, scene.b.at],
    ] as const) {
      const path = Math.sqrt(at.reduce((sum, v, i) => sum + (v - blow.place[i]) ** 2, 0));
      const arrival = (blow.timeSeconds + path / SPEED) * RATE;
      const peak = x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
      const before = firstAbove(x, Math.floor(arrival) - 8820, Math.ceil(arrival) - 1, peak * 10 ** (-70 / 20));
      expect(before).toBe(-1);
      const loud = firstAbove(x, Math.floor(arrival) - 8820, Math.ceil(arrival) + 441, 0.04 * peak);
      expect(loud - arrival).toBeGreaterThan(0);
      expect(loud - arrival).toBeLessThan(0.00015 * RATE);
    }
  });

  function middle(found: AttackFit[]): number {
    return median(found.map((fit) => fit.delaySamples)) - claimed(id).delaySamples;
  }

  function check(found: AttackFit[], residue: number) {
    expect(found.length).toBeGreaterThanOrEqual(6);
    const sign = claimed(id).polarity === 'same' ? 1 : -1;
    for (const fit of found) {
      expect(fit.sign).toBe(sign);
      expect(fit.residue).toBeLessThan(residue);
      // the stick lands elsewhere each time: one hit may differ from the average place
      expect(Math.abs(fit.delaySamples - claimed(id).delaySamples) * MM_PER_SAMPLE).toBeLessThan(10);
    }
    expect(Math.abs(middle(found)) * MM_PER_SAMPLE).toBeLessThan(5);
  }
});

describe('a top and a bottom microphone wired alike', () => {
  it('start apart: the upper one with thinned air, the lower one with a push', () => {
    const scene = SCENES.find((candidate) => candidate.id === 'snare-top-bottom') as Scene;
    const { a, b } = render(scene, KIT_SEED, { noise: false, bleed: false, room: false });
    for (const [x, sign] of [
      [a, -1],
      [b, 1],
    ] as const) {
      const peak = x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
      expect(Math.sign(x[firstAbove(x, 8820, x.length, 0.04 * peak)])).toBe(sign);
    }
  });
});

describe('the whole kit under two overheads', () => {
  const scene = SCENES.find((candidate) => candidate.id === 'kit-overheads') as Scene;
  const listed = manifest.scenes.find((candidate) => candidate.id === scene.id)?.perDrum ?? [];

  it('lists each drum, the loudest in A first, by plain geometry', () => {
    expect(listed.map((drum) => drum.id)).toEqual(['snare', 'kick']);
    for (const { id, pathCm, delaySamples, polarity } of listed) {
      const source = scene.sources.find((candidate) => candidate.id === id);
      if (!source || !isDrum(source)) throw new Error(`${id} is no drum`);
      const metres = (p: readonly number[]) => Math.sqrt(p.reduce((sum, v, i) => sum + (v - source.place[i]) ** 2, 0));
      const path = metres(scene.b.at) - metres(scene.a.at);
      expect(pathCm).toBeCloseTo(100 * path, 6);
      expect(Math.abs((delaySamples ?? Number.NaN) - (path / SPEED) * RATE)).toBeLessThan(0.02);
      const inwards = (p: readonly number[]) =>
        p.reduce((sum, v, i) => sum + (v - source.drum.head[i]) * source.drum.axis[i], 0);
      expect(polarity).toBe(inwards(scene.a.at) > 0 === inwards(scene.b.at) > 0 ? 'same' : 'inverted');
    }
    expect(listed[0]?.pathCm).toBeGreaterThan(0);
    expect(listed[1]?.pathCm).toBeLessThan(0);
  });

  it('has each drum arrive so in the file, by brute-force alignment', () => {
    const wav = readWav(new Uint8Array(readFileSync(`${KIT}kit-overheads.wav`)));
    for (const { id, delaySamples, polarity } of listed) {
      const found = fits(Float64Array.from(wav.read(0)), Float64Array.from(wav.read(1)), { ...scene, struck: id }, 0.2);
      expect(found.length).toBe(6);
      for (const fit of found) expect(fit.sign).toBe(polarity === 'same' ? 1 : -1);
      const off = median(found.map((fit) => fit.delaySamples)) - (delaySamples ?? Number.NaN);
      expect(Math.abs(off) * MM_PER_SAMPLE).toBeLessThan(5);
    }
  });
});

describe('the low-end driver', () => {
  it('hears the low end only: 40–250 Hz stand 42 dB and more over 2–12 kHz', () => {
    const wav = readWav(new Uint8Array(readFileSync(`${KIT}kick-low-end-driver.wav`)));
    const [a, b] = [0, 1].map((channel) => tiltDb(Float64Array.from(wav.read(channel)), RATE));
    expect(b).toBeGreaterThan(42);
    expect(a).toBeLessThan(b - 15);
  });
});

describe('the dead input', () => {
  it('holds noise at −84 dBFS and nothing of the drum', () => {
    const wav = readWav(new Uint8Array(readFileSync(`${KIT}snare-dead-input.wav`)));
    const b = wav.read(1);
    const rms = (from: number, to: number) =>
      Math.sqrt(b.slice(from, to).reduce((sum, v) => sum + v * v, 0) / (to - from));
    expect(20 * Math.log10(rms(0, b.length))).toBeCloseTo(-84, 0);
    for (let i = 0; i + 2205 <= b.length; i += 2205) expect(rms(i, i + 2205)).toBeLessThan(10 ** (-82 / 20));
  });
});

describe('the unrelated pair', () => {
  it('has no blow of one drum within 12 ms of the other, and no common sound', () => {
    const scene = SCENES.find((candidate) => candidate.id === 'unrelated') as Scene;
    const { blows } = perform(scene, KIT_SEED);
    const [p, q] = [...blows.values()].map((list) => list.map((blow) => blow.timeSeconds));
    expect(Math.min(p.length, q.length)).toBeGreaterThanOrEqual(5);
    for (const t of p) for (const u of q) expect(Math.abs(t - u)).toBeGreaterThan(0.012);
    expect(scene.a.hears.some((source) => scene.b.hears.includes(source))).toBe(false);
  });
});
