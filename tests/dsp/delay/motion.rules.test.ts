/**
 * Whether a microphone moves, on made-up first arrivals, µs, two hits a second. 0.9 cm of path is 26 µs, 0.4 cm 12 µs,
 * 1.4 cm 40 µs. Hits that repeat exactly count as scattering by 3 µs: 4, 2.8 and 2.3 of those stay below 26.
 */
import { describe, expect, it } from 'vitest';
import { named } from '../../support/rules/named';
import { LIMITS } from '../../support/rules/rules';
import { MotionFeed, type MotionMode } from '../../support/rules/seriesRules';

type Step = number | { us: number; sign: number };

function fed(steps: readonly Step[]): MotionFeed {
  const feed = new MotionFeed();
  for (const step of steps) typeof step === 'number' ? feed.next(step) : feed.next(step.us, step.sign);
  return feed;
}

const rest = (n: number, us = 0): number[] => Array(n).fill(us);
const turned = (us: number): Step => ({ us, sign: -1 });
/** n hits, each so much later than the one before */
const climbing = (n: number, by: number): number[] => Array.from({ length: n }, (_, i) => i * by);
/** median 0, and half of them 20 µs off on either side: a deviation of 1.4826 · 20 = 29.7 µs round ±20 */
const SCATTERED = [-20, 20, -20, 20];

interface Row {
  name: string;
  hits: readonly Step[];
  mode: MotionMode;
  /** hits that still count after the newest */
  kept: number;
}

const jumps: Row[] = [
  { name: 'two of 27 µs after four that rest', hits: [...rest(4), 27, 27], mode: 'settling', kept: 2 },
  { name: 'two of −27 µs', hits: [...rest(4), -27, -27], mode: 'settling', kept: 2 },
  { name: 'two of 25 µs', hits: [...rest(4), 25, 25], mode: 'steady', kept: 6 },
  { name: 'only the newest one far off', hits: [...rest(5), 100], mode: 'steady', kept: 6 },
  { name: 'two far off, on two sides', hits: [...rest(4), 100, -100], mode: 'steady', kept: 6 },
  { name: 'two after three that rest: no base to move from', hits: [...rest(3), 100, 100], mode: 'steady', kept: 5 },
  {
    name: 'two with the other sign, in the same place',
    hits: [...rest(4), turned(0), turned(0)],
    mode: 'settling',
    kept: 2,
  },
  { name: 'one with the other sign', hits: [...rest(5), turned(0)], mode: 'steady', kept: 6 },
  // away from what? fewer than four are no move from hits that say several things (within 80 µs, three of four)
  { name: 'four that say three things, then two that agree', hits: [-90, 0, 90, 0, 600, 600], mode: 'steady', kept: 6 },
  {
    name: 'six of eight that say one thing, then two that agree',
    hits: [300, -300, ...rest(6), 900, 900],
    mode: 'settling',
    kept: 2,
  },
  {
    name: 'five of eight that say one thing, then two that agree',
    hits: [300, -300, 300, ...rest(5), 900, 900],
    mode: 'steady',
    kept: 10,
  },
  {
    name: 'four that say three things, then four that agree',
    hits: [-90, 0, 90, 0, 600, 600, 600, 600],
    mode: 'settling',
    kept: 4,
  },
  // two that jump have to say one thing, or go on
  { name: 'two far off, the second nearly back', hits: [...rest(4), 100, 60], mode: 'steady', kept: 6 },
  // deviations of 19.3, 29.7 and 44.5 µs
  {
    name: 'the other sign twice, in a scatter of 19 µs',
    hits: [-13, 13, -13, 13, turned(0), turned(0)],
    mode: 'settling',
    kept: 2,
  },
  {
    name: 'the other sign twice, in a scatter of 30 µs',
    hits: [...SCATTERED, turned(0), turned(0)],
    mode: 'steady',
    kept: 6,
  },
  {
    name: 'the other sign three times, in a scatter of 30 µs',
    hits: [...SCATTERED, turned(0), turned(0), turned(0)],
    mode: 'settling',
    kept: 3,
  },
  {
    name: 'the other sign three times, in a scatter of 44 µs',
    hits: [-30, 30, -30, 30, turned(0), turned(0), turned(0)],
    mode: 'steady',
    kept: 7,
  },
  {
    name: 'the other sign four times, in a scatter of 44 µs',
    hits: [-30, 30, -30, 30, turned(0), turned(0), turned(0), turned(0)],
    mode: 'settling',
    kept: 4,
  },
  { name: 'two far off that differ in sign', hits: [...rest(4), 100, turned(100)], mode: 'steady', kept: 6 },
  // of four one and a half times 4 deviations: 177.9 µs
  {
    name: 'four scattered hits, then two within 6 deviations',
    hits: [...SCATTERED, 176, 176],
    mode: 'steady',
    kept: 6,
  },
  { name: 'four scattered hits, then two beyond', hits: [...SCATTERED, 180, 180], mode: 'settling', kept: 2 },
  // of six 4 deviations: 118.6 µs
  { name: 'six scattered hits, then two within 4', hits: [...SCATTERED, -20, 20, 117, 117], mode: 'steady', kept: 8 },
  { name: 'six scattered hits, then two beyond 4', hits: [...SCATTERED, -20, 20, 120, 120], mode: 'settling', kept: 2 },
  // 2.8 deviations: 83.0 µs
  { name: 'scattered hits, then three within 2.8', hits: [...SCATTERED, 82, 82, 82], mode: 'steady', kept: 7 },
  { name: 'scattered hits, then three beyond 2.8', hits: [...SCATTERED, 84, 84, 84], mode: 'settling', kept: 3 },
  // 2.3 deviations: 68.2 µs
  { name: 'scattered hits, then four within 2.3', hits: [...SCATTERED, 67, 67, 67, 67], mode: 'steady', kept: 8 },
  { name: 'scattered hits, then four beyond 2.3', hits: [...SCATTERED, 70, 70, 70, 70], mode: 'settling', kept: 4 },
  // the second largest of eight, 30 µs, stands for one and a half deviations: four of them are 80 µs
  { name: 'two of a wide base, within', hits: [30, -30, ...rest(6), 78, 78], mode: 'steady', kept: 10 },
  { name: 'two of a wide base, beyond', hits: [30, -30, ...rest(6), 82, 82], mode: 'settling', kept: 2 },
];

const climbs: Row[] = [
  { name: 'two far off that climb on by 13 µs', hits: [...rest(4), 30, 43], mode: 'following', kept: 2 },
  { name: 'two far off that climb on by 11 µs', hits: [...rest(4), 30, 41], mode: 'settling', kept: 2 },
  { name: 'two far off that come back', hits: [...rest(4), 60, 45], mode: 'settling', kept: 2 },
  { name: 'two that fall farther', hits: [...rest(4), -30, -43], mode: 'following', kept: 2 },
];

const drifts: Row[] = [
  { name: 'eight that climb by 63 µs in all', hits: climbing(8, 9), mode: 'following', kept: 5 },
  { name: 'eight that fall by 63 µs in all', hits: climbing(8, -9), mode: 'following', kept: 5 },
  { name: 'eight that climb by 59.5 µs', hits: climbing(8, 8.5), mode: 'steady', kept: 8 },
  // fewer than eight climb by chance now and then: of six 2.5 times as much, 150 µs, is asked
  { name: 'six that climb by 155 µs', hits: climbing(6, 31), mode: 'following', kept: 5 },
  { name: 'six that climb by 145 µs', hits: climbing(6, 29), mode: 'steady', kept: 6 },
  {
    name: 'eight of which the newest alone lies off',
    hits: [0, 2, 0, 3, 2, 4, 3, 60],
    mode: 'steady',
    kept: 8,
  },
  {
    name: 'seven that climb and an eighth that leaps 1 cm beyond',
    hits: [0, 7, 14, 21, 28, 35, 42, 80].map((us) => us / 1.5),
    mode: 'steady',
    kept: 8,
  },
  { name: 'five that climb by 120 µs', hits: climbing(5, 30), mode: 'steady', kept: 5 },
  {
    name: 'eight that climb, one of them with the other sign',
    hits: [0, 6, 12, turned(18), 24, 30, 36, 42],
    mode: 'steady',
    kept: 8,
  },
  // 13 of the 28 pairs fall
  {
    name: 'six on a line and two before it far above',
    hits: [60, 50, 12, 18, 24, 30, 36, 42],
    mode: 'steady',
    kept: 8,
  },
];

const moving: Row[] = [
  {
    name: 'it jumped, and two more agree',
    hits: [...rest(8), ...rest(4, 60)],
    mode: 'steady',
    kept: LIMITS.agreeingHits,
  },
  { name: 'it jumped, and one more agrees', hits: [...rest(8), ...rest(3, 60)], mode: 'settling', kept: 3 },
  {
    name: 'it jumped, and the fourth lies 0.9 cm off',
    hits: [...rest(8), ...rest(3, 60), 90],
    mode: 'settling',
    kept: 4,
  },
  {
    name: 'it jumped, and the fourth has the other sign',
    hits: [...rest(8), ...rest(3, 60), turned(60)],
    mode: 'settling',
    kept: 4,
  },
  { name: 'it was inverted, and four agree', hits: [...rest(8), ...Array(4).fill(turned(0))], mode: 'steady', kept: 4 },
  { name: 'it jumped, then climbs on by 30 µs twice', hits: [...rest(8), 60, 60, 90, 120], mode: 'following', kept: 4 },
  { name: 'it jumped, and comes back step by step', hits: [...rest(8), 100, 85, 70], mode: 'following', kept: 3 },
  { name: 'it jumped, then climbs and falls', hits: [...rest(8), 60, 60, 73, 60], mode: 'steady', kept: 4 },
  { name: 'it goes on by 20 µs a hit', hits: [...rest(8), 30, 50, 70, 90], mode: 'following', kept: 4 },
  {
    name: 'it went on, and has stopped for two hits',
    hits: [...rest(8), 30, 50, 70, 90, 90],
    mode: 'following',
    kept: 5,
  },
  {
    name: 'it went on, and has stopped for three',
    hits: [...rest(8), 30, 50, 70, 90, 90, 90],
    mode: 'steady',
    kept: 4,
  },
  // four within 26 µs of their middle, but every pair of them climbs: a slow move
  { name: 'it goes on slowly', hits: [...rest(8), 30, 43, 56, 69, 82], mode: 'following', kept: 5 },
  {
    name: 'six that lead nowhere, none four of which agree',
    hits: [...rest(8), 60, 60, 60, 120, 60, 120],
    mode: 'steady',
    kept: 6,
  },
  {
    name: 'of a long way the newest six count',
    hits: [...rest(8), ...climbing(9, 30).map((us) => 60 + us)],
    mode: 'following',
    kept: 6,
  },
];

describe.each([
  ['a jump', jumps],
  ['a jump that goes on', climbs],
  ['a slow drift', drifts],
  ['after it began', moving],
])('%s', (_, rows) => {
  it.each(named(rows))('%s', (_, { hits, mode, kept }) => {
    const feed = fed(hits);
    expect(feed.mode).toBe(mode);
    expect(feed.kept).toBe(kept);
    expect(feed.undone).toBe(false);
  });
});

describe('a false alarm', () => {
  it.each(
    named([
      { name: 'two bad hits, and back', hits: [...rest(8), 60, 60, 0] },
      { name: 'two that went on, and back', hits: [...rest(8), 30, 50, 0] },
      { name: 'two of the other sign, and back', hits: [...rest(8), turned(0), turned(0), 0] },
      { name: 'a drift by chance, and the next hit 0.9 cm and more off its line', hits: [...climbing(8, 9), 30] },
    ]),
  )('%s: the hits before it count again', (_, { hits }) => {
    const feed = fed(hits);
    expect(feed.mode).toBe('steady');
    expect(feed.undone).toBe(true);
    expect(feed.kept).toBe(hits.length);
  });

  it.each(
    named([
      { name: 'back at the second hit after the jump, not at the first', hits: [...rest(8), 60, 60, 60, 0] },
      { name: 'a drift that goes on', hits: climbing(9, 9) },
    ]),
  )('is none: %s', (_, { hits }) => {
    const feed = fed(hits);
    expect(feed.undone).toBe(false);
    expect(feed.mode).not.toBe('steady');
  });
});

describe('where a microphone on the move is', () => {
  it.each(
    named([
      { name: 'two hits: at the newest', hits: [...rest(8), 30, 50], endUs: 50 },
      { name: 'on the line of the newest five', hits: [...rest(8), 30, 50, 70, 90, 110], endUs: 110 },
      // the line of 40 µs a second, from 30, leads to 110; no more than 0.4 cm from the newest
      { name: 'at rest the line runs on, but never far', hits: [...rest(8), 30, 50, 70, 90, 90], endUs: 102 },
      // one bad hit doesn't turn the line: it leads to 110 all the same
      { name: 'one bad hit on the way', hits: [...rest(8), 30, 50, 76, 90, 110], endUs: 110 },
    ]),
  )('%s', (_, { hits, endUs }) => expect(fed(hits).endUs).toBeCloseTo(endUs, 6));

  it('is not said while it rests', () => expect(fed(rest(8)).endUs).toBeNaN());
});
