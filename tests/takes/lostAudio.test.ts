/** A real kit of which a computer lost a third: the snare’s hits are damaged one by one, and a softer drum’s may be left whole. */
import { expect, test } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { answerOf } from '../../src/reading/reading';
import { TAKES_ABSENT, takePairs, takesHere, takeTrack } from '../bench/engine/takes';
import { seeded } from '../support/sound/signals';

/** share of full scale: between the hits the take is digitally silent, and no room is */
const NOISE = 3e-5;
const BLOCK = 1024;
const PER_SECOND = 6;
const LOST_FRAMES = 8192;
const SEEDS = 12;

test.skipIf(!takesHere)(
  `zeros in the place of lost audio: open, or the snare’s answer, never another drum’s${takesHere ? '' : ` (skipped: ${TAKES_ABSENT})`}`,
  () => {
    const pair = takePairs('kit-b-solo').find((one) => one.drum === 'snare' && one.b === '03 OH');
    if (!pair) throw new Error('no such pair');
    const { a, b, take, delaySamples, toleranceSamples, polarity } = pair;
    const tracks = [a, b].map((track) => takeTrack(take, track));
    const { sampleRate } = tracks[0] as { sampleRate: number };
    const said = new Set<string>();
    for (let seed = 1; seed <= SEEDS; seed++) {
      const random = seeded(seed);
      const [x, y] = tracks.map((track) => track.x.map((value) => value + NOISE * (2 * random() - 1))) as [
        Float32Array,
        Float32Array,
      ];
      for (let at = 0; at < x.length; at += LOST_FRAMES * random()) {
        at += (-Math.log(1 - random()) / PER_SECOND) * sampleRate;
        const to = at + LOST_FRAMES * random();
        x.fill(0, at, to);
        y.fill(0, at, to);
      }
      const engine = new Engine(sampleRate);
      for (let at = 0; at < x.length; at += BLOCK) engine.push(x.subarray(at, at + BLOCK), y.subarray(at, at + BLOCK));
      const answer = answerOf(engine.reading());
      said.add(answer.reason);
      if (answer.state !== 'measured') continue;
      expect(answer.polarity, `seed ${seed}`).toBe(polarity);
      expect(Math.abs(answer.delaySamples - delaySamples), `seed ${seed}`).toBeLessThanOrEqual(toleranceSamples);
    }
    // or nothing was put to the proof
    expect([...said]).toContain('which-drum');
  },
);
