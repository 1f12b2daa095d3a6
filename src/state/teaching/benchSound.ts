/** What the bench sounds like: one mic of the example kit stands for both, and B is late, inverted and quieter as the bench has it. */
import { type Accessor, createMemo } from 'solid-js';
import type { AudioDoor, DemoScene } from '../../audio/link';
import type { Version } from '../../listen/version';
import { figuresOf } from '../../teaching/bench/figures';
import type { Bench, HitId } from '../../teaching/bench/model';
import type { SoundSource } from '../listen/soundSource';
import { NOW } from '../listen/versions';
import type { Teaching } from './teaching';

export interface BenchSoundOptions {
  door: Pick<AudioDoor, 'sceneSound' | 'openLoops'>;
  scenes: Accessor<readonly DemoScene[]>;
  /** never rejects: what went wrong is told elsewhere, and the list stays empty */
  loadScenes(): Promise<void>;
  teaching: Pick<Teaching, 'bench' | 'before'>;
}

export interface BenchSound {
  source: SoundSource;
  /** as the bench is now, and as it was before what was done last */
  versions: Accessor<readonly Version[]>;
  /** false: a speaker’s sound isn’t made here */
  canSound: Accessor<boolean>;
}

/** Whose mic A is a close one of the drum that is hit. */
const SCENE_OF: Readonly<Record<HitId, string>> = {
  snare: 'snare-top-bottom',
  kick: 'kick-inside-outside',
  'floor-tom': 'floor-tom-overhead',
};

const withSpeaker = ({ a, b }: Bench): boolean => a.kind === 'speaker' || b.kind === 'speaker';

/** @param id, name of the version: what the bench makes of B, in samples and dB */
export function benchVersion(bench: Bench, sampleRate: number, { id, name }: Pick<Version, 'id' | 'name'>): Version {
  const { polarity, delayMs, levelDifferenceDb } = figuresOf(bench);
  return {
    id,
    name,
    invertB: polarity === 'inverted',
    delayBSamples: (delayMs * sampleRate) / 1000,
    trimBDb: levelDifferenceDb,
  };
}

/** To be called where effects have an owner. */
export function createBenchSound({ door, scenes, loadScenes, teaching }: BenchSoundOptions): BenchSound {
  const { bench, before } = teaching;
  const hit = createMemo(() => bench().hit);
  const scene = (): DemoScene | null => scenes().find(({ id }) => id === SCENE_OF[hit()]) ?? null;
  return {
    canSound: () => !withSpeaker(bench()),
    versions: createMemo(() => {
      const rate = scene()?.sampleRate ?? null;
      if (rate === null) return [NOW];
      const was = before();
      const versions = [benchVersion(bench(), rate, NOW)];
      if (was && was.hit === hit() && !withSpeaker(was)) versions.push(benchVersion(was, rate, BEFORE));
      return versions;
    }),
    source: {
      key: hit,
      async sound() {
        if (scene() === null) await loadScenes();
        const one = scene();
        if (one === null) return null;
        const sound = await door.sceneSound(one);
        // each its own: what is handed to the audio thread is given away
        return { ...sound, b: sound.a.slice(), offsetSamples: 0 };
      },
      openLoops: (sampleRate, events) => door.openLoops(sampleRate, events),
      turnedB: () => false,
      live: () => null,
      hush: () => undefined,
      soundsElsewhere: () => false,
    },
  };
}

const BEFORE = { id: 'before', name: 'Before' };
