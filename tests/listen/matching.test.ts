/** Versions at one loudness. Loudness itself is held against BS.1770 in loudness.test.ts. */
import { expect, test } from 'vitest';
import { kMeanSquare, loudnessLkfs } from '../../src/listen/loudness';
import { CEILING_DBFS, Matching } from '../../src/listen/matching';
import { delayedLoop, steadyLoop } from '../../src/listen/steady';
import { mixOf, PUTS, type Version } from '../../src/listen/version';
import { Gauss } from '../support/sound/gauss';

const RATE = 48_000;
const N = 4800;
const draw = new Gauss(11);
const noise = Float32Array.from({ length: N }, () => 0.1 * draw.next());
const own = Float32Array.from({ length: N }, () => 0.02 * draw.next());
const loop = { sampleRate: RATE, a: noise, b: noise.map((x, i) => 0.25 * x + (own[i] as number)), hits: 1 };
const version = (id: string, more: Partial<Version> = {}): Version => ({
  id,
  name: id,
  invertB: false,
  delayBSamples: 0,
  trimBDb: 0,
  ...more,
});

test('all versions and all ways to hear them come to the loudness of the first, with no peak over −1 dBFS', () => {
  const versions = [
    version('now'),
    version('inverted', { invertB: true }),
    version('later', { delayBSamples: 9.4, trimBDb: 5 }),
  ];
  const matching = new Matching(loop);
  for (const start of ['equal', 'recorded'] as const) {
    const table = matching.match(versions, start);
    const heard = versions.flatMap((one, i) =>
      PUTS.map((put) => {
        const gain = 10 ** ((table[i]?.[put].gainDb ?? 0) / 20);
        const { left, right } = steadyLoop(loop.a, loop.b, mixOf(one, put, matching.levelB(start), gain));
        const peak = [...left, ...right].reduce((high, x) => Math.max(high, Math.abs(x)), 0);
        expect(20 * Math.log10(peak)).toBeLessThanOrEqual(CEILING_DBFS + 1e-6);
        return loudnessLkfs(kMeanSquare(left, RATE), kMeanSquare(right, RATE));
      }),
    );
    // white noise is the worst case: what a fraction of a sample costs lies over 0.9 of half the rate
    for (const one of heard) expect(Math.abs(one - (heard[0] as number))).toBeLessThan(0.2);
  }
});

test('B starts at A’s level unless as recorded is wanted, and what cancels for good isn’t raised for ever', () => {
  const matching = new Matching(loop);
  const power = (x: ArrayLike<number>): number => Array.from(x).reduce((sum, one) => sum + one * one, 0);
  const b = loop.b.map((x) => x * matching.levelB('equal'));
  expect(power(b) / power(loop.a)).toBeCloseTo(1, 5);
  expect(matching.levelB('recorded')).toBe(1);

  const same = new Matching({ ...loop, b: loop.a });
  const [, gone] = same.match([version('now'), version('inverted', { invertB: true })], 'equal');
  expect(gone?.both).toEqual({ gainDb: null, shortDb: Number.POSITIVE_INFINITY });
  // beside a first one that is silent the others aren't
  const [silent] = same.match([version('now', { invertB: true })], 'equal');
  expect([silent?.both.shortDb, silent?.a]).toEqual([Number.POSITIVE_INFINITY, { gainDb: null, shortDb: 0 }]);
  const nearly = new Matching({ ...loop, b: loop.a.map((x, i) => x + 0.02 * (own[i] as number)) });
  const [first, little] = nearly.match([version('now'), version('inverted', { invertB: true })], 'equal');
  expect((little?.both.gainDb ?? 0) - (first?.both.gainDb ?? 0)).toBeCloseTo(24, 5);
  expect(little?.both.shortDb).toBeGreaterThan(1);
});

/** The same tone twice: inverted, nothing is left of it but a click. */
function clicky() {
  const a = Float32Array.from({ length: N }, (_, i) => 0.25 * Math.sin((2 * Math.PI * 200 * i) / RATE));
  const b = a.slice();
  b[100] = (b[100] as number) - 0.3;
  return { sampleRate: RATE, a, b, hits: 1 };
}

test('what cancels takes the others down by 12 dB at most; when it has gone they come back up only bit by bit', () => {
  const matching = new Matching(clicky());
  const now = version('now');
  const gainOfNow = (...others: Version[]): number => matching.match([now, ...others], 'recorded')[0]?.both.gainDb ?? 0;
  expect(gainOfNow()).toBe(0);
  const versions = [now, version('tried', { invertB: true })];
  const [first, tried] = matching.match(versions, 'recorded');
  expect(first?.both.gainDb).toBeCloseTo(-12, 9);
  expect(tried?.both.shortDb).toBeGreaterThan(3);
  // it stands at the ceiling, and no higher
  const gain = 10 ** ((tried?.both.gainDb ?? 0) / 20);
  expect(20 * Math.log10(0.3 * gain)).toBeCloseTo(CEILING_DBFS, 4);
  expect(matching.canRise).toBe(false);
  expect(gainOfNow()).toBeCloseTo(-12, 9);
  // nor in another stretch of the sound
  expect(new Matching(clicky(), 0, matching.downDb).match([now], 'recorded')[0]?.both.gainDb).toBeCloseTo(-12, 9);
  expect(matching.canRise).toBe(true);
  matching.rise(0.5);
  expect(gainOfNow()).toBeCloseTo(-11.5, 9);
  // as far as there is room, and down at once when it cancels again
  matching.rise(20);
  expect([gainOfNow(), matching.canRise]).toEqual([0, false]);
  expect(matching.match(versions, 'recorded')[0]?.both.gainDb).toBeCloseTo(-12, 9);
});

test('matched with A alone, nothing else is turned down for a first version that nearly cancels', () => {
  const same = new Matching({ ...loop, b: loop.a });
  const thin = version('now', { invertB: true, trimBDb: -0.3 });
  const [now, before] = same.match([thin, version('before')], 'equal', 'a');
  expect(now?.a.gainDb).toBeCloseTo(0, 9);
  expect(before?.both.gainDb).toBeCloseTo(-6.02, 2);
  expect(now?.both.gainDb).toBeCloseTo(24, 9);
  expect(same.match([version('now')], 'equal', 'a')[0]?.a.gainDb).toBe(now?.a.gainDb);
});

test('a loop that is late by a whole number is the loop turned round', () => {
  const late = delayedLoop(noise, 100);
  for (let i = 0; i < N; i += 37) expect(late[i]).toBeCloseTo(noise[(i - 100 + N) % N] as number, 12);
});
