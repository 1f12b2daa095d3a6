import { expect, test } from 'vitest';
import type { ChannelPicture } from '../../../src/reading/hitPictures';
import type { HitReading } from '../../../src/reading/reading';
import { delayText, factsText, laidText, pushesText } from '../../../src/ui/why/hitWords';
import { CM_PER_SAMPLE, RATE, reading } from '../../advice/readings';

const HIT: HitReading = {
  serial: 3,
  timeSeconds: 1,
  delaySamples: 12,
  polarity: 'inverted',
  fate: 'used',
  drum: 1,
  levelADbfs: -8.1,
  levelBDbfs: -12,
  correlation: null,
  bandCorrelation: [null, null, null, null],
};
const CHANNEL: ChannelPicture = {
  arrival: 0.25,
  push: 1,
  peak: 0.5,
  quality: 31.4,
  noiseBound: false,
  clipped: false,
  columns: new Float32Array(4),
};

test('a hit’s delay: polarity, time and path, or why there is none', () => {
  const cm = (12 * CM_PER_SAMPLE).toFixed(1);
  expect(delayText(HIT, reading(), 20)).toBe(`inverted · +${((12 / RATE) * 1000).toFixed(3)} ms · +${cm} cm`);
  expect(delayText({ ...HIT, polarity: null }, reading(), 20)).toMatch(/^– · \+/);
  expect(delayText({ ...HIT, delaySamples: null }, reading(), 20)).toBe('no delay');
  expect(delayText(HIT, reading({ state: 'unclear', reason: 'lows-only-b' }), 20)).toBe('lows only: no delay');
});

test('what a channel shows: the first push, how far it stands out, how loud the hit is', () => {
  expect(factsText('A', CHANNEL, -8.1)).toBe(
    'A: first push up, 31 times the noise before it; the hit peaks at −8.1 dBFS',
  );
  expect(factsText('B', { ...CHANNEL, push: -1, quality: 1000, noiseBound: true }, null)).toBe(
    'B: first push down, over 1000 times the noise before it (threshold set by the noise); the hit peaks at –',
  );
  expect(factsText('A', { ...CHANNEL, arrival: null }, -8.1)).toBe(
    'A: no first push found; the hit peaks at −8.1 dBFS',
  );
  expect(factsText('A', undefined, -8.1)).toBe('A: no picture; the hit peaks at −8.1 dBFS');
});

test('both first pushes for whoever can’t see them, and how B is drawn against A', () => {
  expect(pushesText({ serial: 3, a: CHANNEL, b: { ...CHANNEL, push: -1 }, only: null })).toBe(
    '. A: first push up. B: first push down. ',
  );
  expect(pushesText(null)).toBe('. A: no picture. B: no picture. ');
  expect(laidText(12, RATE)).toBe('B drawn 0.250 ms earlier');
  expect(laidText(-12, RATE)).toBe('B drawn 0.250 ms later');
  expect(laidText(null, RATE)).toBe('A and B as recorded');
});
