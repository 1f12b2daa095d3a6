/**
 * Where a hit begins, from made-up block peaks (0.75 ms each). DEVELOPERS, "How an answer comes about", 1. 40 ms are 53⅓
 * blocks, 60 ms are 80, 80 ms are 106⅔.
 */
import { describe, expect, it } from 'vitest';
import { DetectorFeed, type MadeBlocks } from '../../support/rules/hitRules';
import { named } from '../../support/rules/named';

interface Row {
  name: string;
  peaks: MadeBlocks;
  hits: number[];
  soon?: number[];
}

const rows: Row[] = [
  { name: 'silence', peaks: { blocks: 400 }, hits: [] },
  { name: 'one in A', peaks: { blocks: 200, a: { 100: 0.5 } }, hits: [100] },
  { name: 'one in B', peaks: { blocks: 200, b: { 100: 0.5 } }, hits: [100] },
  { name: 'one in both', peaks: { blocks: 200, a: { 100: 0.5 }, b: { 101: 0.2 } }, hits: [100] },
  { name: 'in the first 60 ms', peaks: { blocks: 200, a: { 78: 0.5 } }, hits: [] },
  { name: 'in the block that ends with them', peaks: { blocks: 200, a: { 79: 0.5 } }, hits: [79] },
  { name: '−80 dBFS and a little less', peaks: { blocks: 200, a: { 100: 0.99e-4 } }, hits: [] },
  { name: '−80 dBFS and a little more', peaks: { blocks: 200, a: { 100: 1.01e-4 } }, hits: [100] },
  // three times what was before, over 20 blocks
  { name: '2.9 times the noise', peaks: { blocks: 300, floorA: 0.1, a: { 200: 0.29 } }, hits: [] },
  { name: '3.1 times the noise', peaks: { blocks: 300, floorA: 0.1, a: { 200: 0.31 } }, hits: [200] },
  { name: 'twice as loud as what was 20 blocks before', peaks: { blocks: 200, a: { 70: 0.1, 90: 0.2 } }, hits: [] },
  { name: 'twice as loud as what was 21 blocks before', peaks: { blocks: 200, a: { 70: 0.1, 91: 0.2 } }, hits: [91] },
  // 6 % of the loudest so far, which fades by 6 dB in 8 s: after 0.15 s by 0.11 dB
  { name: '5.9 % of the hit before', peaks: { blocks: 400, a: { 100: 1, 300: 0.059 } }, hits: [100] },
  { name: '6 % of the hit before', peaks: { blocks: 400, a: { 100: 1, 300: 0.06 } }, hits: [100, 300] },
  { name: '2.9 % of a hit 8 s before', peaks: { blocks: 10900, a: { 100: 1, 10767: 0.029 } }, hits: [100] },
  { name: '3.1 % of a hit 8 s before', peaks: { blocks: 10900, a: { 100: 1, 10767: 0.031 } }, hits: [100, 10767] },
  // each by its own past
  { name: 'B 60 dB below A', peaks: { blocks: 400, a: { 100: 1 }, b: { 100: 0.001, 300: 0.001 } }, hits: [100, 300] },
  { name: 'noise in A only', peaks: { blocks: 300, floorA: 0.1, b: { 200: 0.01 } }, hits: [200] },
  // nothing within 80 ms; from 40 ms on it is told, once
  {
    name: 'a second one 106 blocks later',
    peaks: { blocks: 400, a: { 100: 0.5, 206: 0.5 } },
    hits: [100],
    soon: [206],
  },
  { name: 'a second one 107 blocks later', peaks: { blocks: 400, a: { 100: 0.5, 207: 0.5 } }, hits: [100, 207] },
  {
    name: 'a second one 53 blocks later: still that hit',
    peaks: { blocks: 400, a: { 100: 0.5, 153: 0.5 } },
    hits: [100],
  },
  { name: 'a second one 54 blocks later', peaks: { blocks: 400, a: { 100: 0.5, 154: 0.5 } }, hits: [100], soon: [154] },
  { name: 'in the other channel', peaks: { blocks: 400, a: { 100: 0.5 }, b: { 154: 0.5 } }, hits: [100], soon: [154] },
  { name: 'two such', peaks: { blocks: 400, a: { 100: 0.5, 154: 0.5, 180: 0.5 } }, hits: [100], soon: [154] },
  {
    name: 'and again after the next hit',
    peaks: { blocks: 500, a: { 100: 0.5, 160: 0.5, 250: 0.5, 310: 0.5 } },
    hits: [100, 250],
    soon: [160, 310],
  },
];

describe('a hit begins', () => {
  it.each(named(rows))('%s', (_, { peaks, hits, soon = [] }) =>
    expect(new DetectorFeed().run(peaks)).toEqual({ hits, soon }),
  );

  it.each([1, 36, 100, 3800])('where it does, whatever the step: %i frames', (step) => {
    const peaks = { blocks: 600, a: { 100: 0.5, 207: 0.5 }, b: { 270: 0.1, 400: 0.5 } };
    expect(new DetectorFeed().run(peaks, step)).toEqual({ hits: [100, 207, 400], soon: [270] });
  });

  it.each([0.01, 0.1, 10])('where it does, with a gain of %d on B', (gain) => {
    const b = { 100: 0.2 * gain, 250: 0.1 * gain, 400: 0.01 * gain };
    expect(new DetectorFeed().run({ blocks: 600, a: { 100: 0.5 }, b, floorB: 0.005 * gain }).hits).toEqual([100, 250]);
  });

  it('anew, and one too soon after it is told anew', () => {
    const feed = new DetectorFeed();
    const peaks = { blocks: 220, a: { 100: 0.5, 154: 0.5 } };
    expect(feed.run(peaks)).toEqual({ hits: [100], soon: [154] });
    feed.clear();
    expect(feed.run(peaks)).toEqual({ hits: [100], soon: [154] });
  });

  it('after the start anew as after the first one', () => {
    const feed = new DetectorFeed();
    expect(feed.run({ blocks: 150, a: { 100: 1 } }).hits).toEqual([100]);
    feed.clear();
    expect(feed.run({ blocks: 300, a: { 50: 0.01, 130: 0.01 } })).toEqual({ hits: [130], soon: [] });
  });
});
