import { createRoot } from 'solid-js';
import { expect, it } from 'vitest';
import type { DemoScene } from '../../../src/audio/link';
import type { PairSound } from '../../../src/listen/version';
import { benchVersion, createBenchSound } from '../../../src/state/teaching/benchSound';
import { createTeaching } from '../../../src/state/teaching/teaching';
import { freshBench, invert, moveMic, setMixDelay } from '../../../src/teaching/bench/edits';

const NOW = { id: 'now', name: 'Now' };

it('B is as late, inverted and quiet as the bench has it', () => {
  const above = freshBench('snare', [0, 17, { bodyCm: 0 }], [0, 37, { bodyCm: 0 }], { levels: 'distance' });
  const version = benchVersion(invert(above, 'b'), 48000, NOW);
  // 20 cm at 343.2 m/s: 0.5827 ms, 27.97 samples at 48 kHz; three times as far is 9.54 dB down
  expect(version.delayBSamples).toBeCloseTo(27.97, 2);
  expect(version.trimBDb).toBeCloseTo(-9.542, 3);
  expect(version.invertB).toBe(true);
  expect(benchVersion(setMixDelay(above, 'a', 2), 48000, NOW).delayBSamples).toBeCloseTo(27.97 - 96, 2);
});

it('one mic of the example stands for both, each with samples of its own; Before comes with the first change', async () => {
  const sound: PairSound = {
    sampleRate: 44100,
    a: Float32Array.from([0.1, 0.2]),
    b: Float32Array.from([0.3, 0.4]),
    offsetSamples: 3,
    hitsSeconds: [0],
    ownSeconds: [],
    isNewest: false,
  };
  const scene = { id: 'snare-top-bottom', sampleRate: 44100 } as DemoScene;
  await createRoot(async (dispose) => {
    const teaching = createTeaching();
    const bench = createBenchSound({
      door: { sceneSound: async () => sound, openLoops: () => Promise.reject(new Error('not wanted')) },
      scenes: () => [scene],
      loadScenes: async () => undefined,
      teaching,
    });
    const heard = await bench.source.sound();
    expect(heard?.b).toEqual(sound.a);
    expect(heard?.b).not.toBe(heard?.a);
    expect(heard?.offsetSamples).toBe(0);
    expect(bench.versions().map(({ name }) => name)).toEqual(['Now']);
    teaching.change('', (now) => moveMic(now, 'b', { xCm: 14, yCm: 17 }));
    expect(bench.versions().map(({ name }) => name)).toEqual(['Now', 'Before']);
    expect(bench.versions()[0]?.delayBSamples).toBeCloseTo(0, 6);
    dispose();
  });
});
