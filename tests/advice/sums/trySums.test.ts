/** How what is tried comes about: the figures are those of the table, trims and all. Levels of two unlike tones: Everest & Pohlmann, ch. 10. */
import { expect, it } from 'vitest';
import { trySums } from '../../../src/advice/sums/trySums';
import { NOTHING_TRIED } from '../../../src/advice/tryOut/tried';
import { tryOut } from '../../../src/advice/tryOut/tryOut';
import { Engine } from '../../../src/dsp/engine';
import { openPair, recordedPairs } from '../../support/sound/recordedPairs';

const CONTEXT = { temperatureC: 20, invertB: false };

const pair = recordedPairs().find(({ name }) => name === 'scene snare-top-bottom');
const { sampleRate, a, b } = openPair(pair as NonNullable<typeof pair>);
const engine = new Engine(sampleRate);
for (let at = 0; at < a.length; at += 1024) engine.push(a.subarray(at, at + 1024), b.subarray(at, at + 1024));
const read = engine.reading();

it('each gain is the table’s, for every kind of thing that is tried', () => {
  for (const tried of [
    NOTHING_TRIED,
    { ...NOTHING_TRIED, invertB: true, moveCm: 2.4 },
    { ...NOTHING_TRIED, moveCm: -20, trimDb: -6 },
    { ...NOTHING_TRIED, invertB: true, delayMs: 0.07, trimDb: 3 },
  ])
    for (const context of [CONTEXT, { ...CONTEXT, invertB: true }]) {
      const { low, all, bands } = tryOut(read, context, tried);
      const [shift, ...gains] = trySums(read, context, tried);
      expect(shift?.result).toBeCloseTo(tried.delayMs ?? ((tried.moveCm ?? 0) / 34321) * 1000, 4);
      expect(gains.map(({ result }) => result ?? Number.NaN)).toEqual(
        [low, all, ...bands].map(({ gainDb }) => (gainDb === null ? Number.NaN : expect.closeTo(gainDb, 6))),
      );
    }
});

it('beyond what the hits tell there is no number', () => {
  for (const { worked, result, inputs } of trySums({ ...read, sum: { ...read.sum, near: null, here: null } }, CONTEXT, {
    ...NOTHING_TRIED,
    moveCm: 30,
  }).slice(1)) {
    expect([worked, result]).toEqual([null, null]);
    expect(JSON.stringify(inputs)).not.toMatch(/NaN|null/);
  }
});
