/** Hits that a reading stands on, found again in a sound whose seconds begin elsewhere. */
import { expect, test } from 'vitest';
import { ownHits } from '../../src/listen/ownHits';

// a bar of kick, snare and hats, unevenly spaced as played
const kick = [0.31, 1.52, 2.71];
const snare = [0.93, 2.12, 3.36];
const hats = [0.62, 1.22, 1.83, 2.4, 3.05];
const found = [...kick, ...snare, ...hats].sort((x, y) => x - y);

test('they are found whatever second the stream began at', () => {
  expect(
    ownHits(
      found,
      snare.map((at) => at + 41.2),
      null,
    ),
  ).toEqual(snare);
  // arrivals lie a little before what is found
  expect(
    ownHits(
      found,
      kick.map((at, i) => at - 3 + 0.001 * i),
      null,
    ),
  ).toEqual(kick);
});

test('round and round they are the same ones', () => {
  const rounds = [0, 1, 2].flatMap((k) => snare.map((at) => at + 4 * k + 1.7));
  expect(ownHits(found, rounds, 4)).toEqual(snare);
});

test('where they don’t fit, none are', () => {
  expect(ownHits(found, [1, 1.27, 1.4, 1.9], null)).toEqual([]);
  expect(ownHits(found, [], null)).toEqual([]);
});
