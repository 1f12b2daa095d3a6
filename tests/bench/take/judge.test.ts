/** The judges of a take's report: what they call right, wrong and missed, on reports made by hand. */
import { describe, expect, it } from 'vitest';
import type { Fault, PairReport, TakeReport } from '../../../src/take/model';
import type { Planted } from '../../support/take/plantFaults';
import { judgeFaults } from './judgeFaults';
import { judgeTake, type KnownTake } from './judgeTake';

const pair = (a: string, b: string, delaySamples: number | null, polarity: 'same' | 'inverted' | null): PairReport =>
  ({
    a,
    b,
    kind: 'other',
    state: delaySamples === null ? 'unclear' : 'measured',
    reasonCode: delaySamples === null ? 'hits-disagree' : 'agreed',
    delaySamples,
    polarity,
  }) as PairReport;

const report = (hits: TakeReport['hits'], pairs: PairReport[], drum = 'kick'): TakeReport =>
  ({ hits, drums: [{ drum, ownTrack: null, hits: 0, hitsUsable: 0, pairs }], faults: [] }) as unknown as TakeReport;

const known: KnownTake = {
  hits: [
    { seconds: 1, drum: 'kick' },
    { seconds: 2, drum: 'kick' },
    { seconds: 3, drum: 'kick' },
    { seconds: 4, drum: 'snare' },
    { seconds: 5, drum: 'snare' },
    { seconds: 5.01, drum: 'kick' },
  ],
  pair: (drum, _a, b) => {
    if (drum !== 'kick' || b === 'nobody') return 'unknown';
    return b === 'driver' ? 'no answer' : { delaySamples: 50, polarity: 'same', toleranceSamples: 7 };
  },
};

describe('a report’s pairs', () => {
  it.each([
    ['right', pair('a', 'b', 56.9, 'same')],
    ['wrong', pair('a', 'b', 57.1, 'same')],
    ['wrong', pair('a', 'b', 50, 'inverted')],
    ['none', pair('a', 'b', null, null)],
    ['low end', pair('a', 'driver', 50, 'same')],
    ['none, rightly', pair('a', 'driver', null, null)],
    ['unknown', pair('a', 'nobody', 50, 'same')],
  ])('%s', (outcome, one) => {
    expect(judgeTake(report([], [one]), known).pairs).toMatchObject([{ outcome }]);
  });

  it('are of the drum that most of their hits are, where no track is called after it', () => {
    const hits = [1, 2, 3].map((timeSeconds) => ({ timeSeconds, drums: ['other drum'] }));
    const judged = judgeTake(report(hits, [pair('a', 'b', 50, 'same')], 'other drum'), known);
    expect(judged.pairs).toMatchObject([{ drum: 'kick', outcome: 'right' }]);
    expect(judged.hits.kick).toMatchObject({ right: 3, wrong: 0, missed: 1 });
  });
});

describe('a report’s hits', () => {
  it('are right within 25 ms, another drum’s, under one struck at once, nobody’s, missed, and added where nothing was struck', () => {
    const hits = [
      { timeSeconds: 1.024, drums: ['kick'] },
      { timeSeconds: 2, drums: [] },
      { timeSeconds: 4, drums: ['kick'] },
      { timeSeconds: 5, drums: ['kick'] },
      { timeSeconds: 7, drums: ['kick'] },
    ];
    const judged = judgeTake(report(hits, []), known);
    const confused = { 'added to snare': 1, 'added to nothing': 1 };
    expect(judged.hits).toEqual({
      kick: { right: 2, wrong: 0, under: 0, nobodys: 1, missed: 1, added: 2, confused },
      snare: { right: 0, wrong: 1, under: 1, nobodys: 0, missed: 0, added: 0, confused: { 'as kick': 1 } },
    });
  });
});

describe('named faults', () => {
  const named = (kind: Fault['kind'], files: string[], samples: number | null = null): Fault => {
    return { kind, files, samples, text: '' };
  };
  const planted: Planted[] = [
    { kind: 'inverted', file: 'a' },
    { kind: 'late', file: 'b', ms: 1 },
    { kind: 'dead', file: 'c', noise: true },
    { kind: 'swapped', files: ['d', 'e'] },
  ];

  it('are those planted where kind and files are the same, in whatever order', () => {
    const faults = [
      named('inverted', ['a']),
      named('late', ['b'], 50),
      named('silent', ['c']),
      named('swapped', ['e', 'd']),
    ];
    const judged = judgeFaults(faults, planted, 48000);
    expect(judged).toEqual({
      named: { inverted: 1, late: 1, dead: 1, swapped: 1 },
      missed: [],
      accused: [],
      lateOffSamples: [2],
    });
  });

  it('of another kind, or of another file, are missed, and a false accusation', () => {
    const judged = judgeFaults([named('late', ['a']), named('swapped', ['d', 'f'])], planted, 48000);
    expect(judged.named).toEqual({});
    expect(judged.missed.map(({ kind }) => kind)).toEqual(['inverted', 'late', 'dead', 'swapped']);
    expect(judged.accused.map(({ kind, files }) => [kind, ...files])).toEqual([
      ['late', 'a'],
      ['swapped', 'd', 'f'],
    ]);
  });
});
