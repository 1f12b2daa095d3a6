import { expect, it } from 'vitest';
import { type DrumSays, drumSays, othersPlayed, usedHits, whichShown } from '../../../src/advice/plan/drums';
import type { DrumReading } from '../../../src/reading/reading';
import { hit } from '../hits';
import { CM_PER_SAMPLE, drum, measured, RATE, reading } from '../readings';

const AT = { sampleRate: RATE, hitsNeeded: 4 };

it.each<[Partial<DrumReading>, boolean, DrumSays]>([
  [{}, false, { code: 'measured', polarity: 'inverted', pathCm: expect.closeTo(12, 9) }],
  [
    { polarity: 'same', delaySamples: -3 / CM_PER_SAMPLE },
    true,
    { code: 'measured', polarity: 'same', pathCm: expect.closeTo(-3, 9) },
  ],
  [
    { state: 'listening', reason: 'too-few-hits', hitsPooled: 2 },
    false,
    { code: 'listening', reason: { code: 'too-few-hits', hits: 2, needed: 4 } },
  ],
  [
    { state: 'listening', reason: 'too-few-hits', hitsPooled: 2 },
    true,
    { code: 'ended', reason: { ended: true, code: 'too-few-hits', hits: 2, needed: 4 } },
  ],
  [
    { state: 'unclear', reason: 'hits-disagree', polarity: null },
    false,
    { code: 'cannot-tell', reason: { code: 'hits-disagree' } },
  ],
  [
    { state: 'unclear', reason: 'hits-disagree', polarity: null },
    true,
    { code: 'cannot-tell', reason: { code: 'hits-disagree' } },
  ],
  [{ state: 'following', reason: 'moving', polarity: null }, false, { code: 'following' }],
  [
    { state: 'following', reason: 'moving', polarity: null },
    true,
    { code: 'ended', reason: { ended: true, code: 'still-moving' } },
  ],
])('a drum %o, the recording over: %s', (fields, ended, says) => {
  expect(drumSays(drum(1, fields), AT, 20, ended)).toEqual(says);
});

it('tells which drum is shown, where several are heard', () => {
  const two = { drum: 2, drums: [drum(2), drum(1)] };
  expect(whichShown(measured('same', 3, two))).toEqual({ code: 'picked', drum: 2 });
  expect(whichShown(measured('same', 3, { ...two, drumChosen: true }))).toEqual({ code: 'chosen', drum: 2 });
  expect(whichShown(reading({ ...two, drum: null }))).toBeNull();
  expect(whichShown(measured('same', 3, { drum: 1, drums: [drum(1)], drumChosen: true }))).toBeNull();
  expect(whichShown(reading())).toBeNull();
});

it.each<[(number | null)[], number | null, number[]]>([
  [[1, 1, 1], 1, []],
  [[1, 2], 1, []],
  [[1, 2, 2], 1, [2]],
  [[1, 3, 2], 1, [2, 3]],
  [[1, 3, 2, 3, 3], 1, [2, 3]],
  // gone with the next own hit
  [[1, 2, 2, 1], 1, []],
  [[1, 2, 2, 1, 2], 1, []],
  // its own have long left the newest
  [[2, 2, 2], 1, [2]],
  // hits of none, or not sorted yet, tell nothing
  [[1, null, 2, null], 1, []],
  [[1, 2, null, 2, null], 1, [2]],
  [[1, 2, 2, null], 1, [2]],
  [[2, 2, 3], null, []],
  [[], 1, []],
])('of hits of %j, drum %s shown, others are played: %j', (of, shown, played) => {
  const perHit = of.map((id, i) => hit(i + 1, 'used', { drum: id }));
  expect(othersPlayed({ perHit, drum: shown })).toEqual(played);
});

it('counts the hits behind a reading: of all drums, or of those of one that are not too old', () => {
  const two = { hits: 31, hitsUsed: 9, drum: 2, drums: [drum(2), drum(1)] };
  expect(usedHits(measured('same', 3, two))).toEqual({ used: 9, of: 31, ofAllDrums: true });
  const perHit = (['old', 'old', 'used', 'used', 'clipped', 'used', 'used'] as const).map((fate, i) => hit(i, fate));
  const one = { hits: 7, hitsUsed: 4, perHit, drum: 1, drums: [drum(1)] };
  expect(usedHits(measured('same', 3, one))).toEqual({ used: 4, of: 5, ofAllDrums: false });
  expect(usedHits(measured('same', 3))).toEqual({ used: 6, of: 6, ofAllDrums: false });
});
