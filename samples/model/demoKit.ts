/** The demo kit as files: a WAV per scene and `kit.json`, which says what is true of each. */
import { writeWav } from '../../src/files/writeWav';
import { SAMPLE_RATE } from './loop';
import { render, trueDelaySamples, truePathCm, truePolarity } from './render';
import type { Scene } from './scene';
import { SCENES, TEMPERATURE_C } from './scenes';

export const KIT_VERSION = 2;
export const KIT_SEED = 23;

export interface KitDrum {
  id: string;
  pathCm: number | null;
  delaySamples: number | null;
  polarity: 'same' | 'inverted' | null;
}

export interface KitScene {
  id: string;
  title: string;
  a: string;
  b: string;
  kind: string;
  file: string;
  sampleRate: number;
  /** B − A from the average place struck, cm; null where the pair has no answer */
  pathCm: number | null;
  /** the same at temperatureC, samples, exact */
  delaySamples: number | null;
  polarity: 'same' | 'inverted' | null;
  /** every drum with an answer, the loudest in A first: the three above are its */
  perDrum: KitDrum[];
  temperatureC: number;
  note: string;
}

export interface KitManifest {
  version: number;
  sampleRate: number;
  temperatureC: number;
  seed: number;
  scenes: KitScene[];
}

export interface KitFile {
  name: string;
  bytes: Uint8Array<ArrayBuffer>;
}

export function makeManifest(): KitManifest {
  const scenes = SCENES.map((scene) => ({
    id: scene.id,
    title: scene.title,
    a: scene.a.words,
    b: scene.b.words,
    kind: scene.kind,
    file: fileName(scene),
    sampleRate: SAMPLE_RATE,
    pathCm: rounded(truePathCm(scene)),
    delaySamples: rounded(trueDelaySamples(scene)),
    polarity: truePolarity(scene),
    perDrum: [scene.struck ?? [], scene.alsoStruck ?? []].flat().map((id) => ({
      id,
      pathCm: rounded(truePathCm(scene, id)),
      delaySamples: rounded(trueDelaySamples(scene, id)),
      polarity: truePolarity(scene, id),
    })),
    temperatureC: TEMPERATURE_C,
    note: scene.note,
  }));
  return { version: KIT_VERSION, sampleRate: SAMPLE_RATE, temperatureC: TEMPERATURE_C, seed: KIT_SEED, scenes };
}

/** One scene's WAV: stereo, A left and B right, 16 bit. */
export function makeSceneFile(scene: Scene): KitFile {
  const { a, b } = render(scene, KIT_SEED);
  return { name: fileName(scene), bytes: writeWav([a, b], SAMPLE_RATE, 's16') };
}

export function makeManifestFile(): KitFile {
  return { name: 'kit.json', bytes: new TextEncoder().encode(`${JSON.stringify(makeManifest(), null, 2)}\n`) };
}

export function* makeKit(): Generator<KitFile> {
  for (const scene of SCENES) yield makeSceneFile(scene);
  yield makeManifestFile();
}

function fileName(scene: Scene): string {
  return `${scene.id}.wav`;
}

/** Nine places after the point: far below a nanometre, and free of rounding that differs between machines. */
function rounded(value: number | null): number | null {
  return value === null ? null : Math.round(value * 1e9) / 1e9;
}
