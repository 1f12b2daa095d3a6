/**
 * A real groove with a hi-hat on every eighth, up to 15 ms before or after the stroke (../shared/takes, read there, never copied), alone and
 * after the same drums one by one. `npm run bench -- takes` prints the first, `-- moves` the second.
 */
import { beforeAll, describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { answerOf, type DrumReading, type Reading } from '../../src/reading/reading';
import {
  type PlayedPair,
  playPair,
  TAKES_ABSENT,
  type TakePair,
  takePairs,
  takesHere,
  takeTrack,
} from '../bench/engine/takes';

const SOLO = 'kit-b-solo';
const GROOVE = 'kit-b-groove';
const BLOCK = 1024;
const REACH_MS = 34;
const SNARE_MIC = '02 Snare';
const PATIENCE_MS = 600_000;

const ofSnare = (take: string): TakePair[] =>
  takePairs(take).filter(({ a, drum }) => a === SNARE_MIC && drum === 'snare');

/** All certain answers, one after the other, of take after take through one meter; B later by so many samples from the second take on. */
function certain(pair: TakePair, takes: readonly string[], laterSamples = 0): { take: number; drum: DrumReading }[] {
  const { sampleRate } = takeTrack(pair.take, pair.a);
  const engine = new Engine(sampleRate, { maxLagMs: REACH_MS });
  return takes.flatMap((take, k) => {
    const a = takeTrack(take, pair.a).x;
    const b = takeTrack(take, pair.b).x;
    const moved = new Float32Array(b.length);
    moved.set(b.subarray(0, b.length - (k > 0 ? laterSamples : 0)), k > 0 ? laterSamples : 0);
    const found: { take: number; drum: DrumReading }[] = [];
    for (let i = 0; i < a.length; i += BLOCK) {
      engine.push(a.subarray(i, i + BLOCK), moved.subarray(i, i + BLOCK));
      const reading: Reading = engine.reading();
      const drum = reading.drums.find(({ id }) => id === reading.drum);
      if (answerOf(reading).state === 'measured' && drum) found.push({ take: k, drum });
    }
    return found;
  });
}

describe.skipIf(!takesHere)(`a groove${takesHere ? '' : ` (${TAKES_ABSENT})`}`, () => {
  const played: PlayedPair[] = [];
  beforeAll(() => {
    for (const pair of ofSnare(GROOVE)) played.push(playPair(pair));
  }, PATIENCE_MS);

  it('is read right in two of the snare’s three pairs, and never wrong', () => {
    expect(played.length).toBe(3);
    expect(played.filter(({ end }) => end === 'right').length).toBeGreaterThanOrEqual(2);
    for (const { wrong, ofAnother, end } of played) {
      expect([wrong, ofAnother]).toEqual([0, 0]);
      expect(['right', 'none']).toContain(end);
    }
  });

  it('after the drums one by one keeps the snare’s answer under the overhead, and where B stands 4 cm farther says so', {
    timeout: PATIENCE_MS,
  }, () => {
    const pair = ofSnare(SOLO).find(({ b }) => b === '03 OH') as TakePair;
    const { delaySamples, toleranceSamples, polarity } = pair;
    const still = certain(pair, [SOLO, GROOVE]).filter(({ take }) => take === 1);
    // 18 s of groove, a look each 23 ms
    expect(still.length).toBeGreaterThan(700);
    for (const { drum } of still) {
      expect(drum.polarity).toBe(polarity);
      expect(Math.abs((drum.delaySamples ?? Number.NaN) - delaySamples)).toBeLessThanOrEqual(toleranceSamples);
    }
    // 4 cm at 44.1 kHz
    const later = 5;
    const moved = certain(pair, [SOLO, GROOVE, GROOVE], later).filter(({ take }) => take === 2);
    expect(moved.length).toBeGreaterThan(100);
    for (const { drum } of moved)
      expect(Math.abs((drum.delaySamples ?? Number.NaN) - delaySamples - later)).toBeLessThan(2.5);
  });
});
