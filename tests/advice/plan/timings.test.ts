/** The ways in which a pair may lie in time: which are offered to which kind, and what A+B comes to in each. */
import { describe, expect, it } from 'vitest';
import { AS_GOOD_DB, type Timing } from '../../../src/advice/plan/alternatives';
import { pathSaidCm } from '../../../src/advice/plan/gap';
import { PAIR_KIND_IDS, type PairKindId } from '../../../src/advice/plan/pairKinds';
import type { PlanContext } from '../../../src/advice/plan/planTypes';
import { timingsOf } from '../../../src/advice/plan/timings';
import type { Polarity, Reading } from '../../../src/reading/reading';
import { changed, type Flat } from '../../support/readings/flat';
import { CM_PER_SAMPLE, measured, NO_SUM, RATE, reading, sumOf, turnedOver } from '../readings';
import { known } from './plans';

const of = (r: Reading, kind: PairKindId, more: Partial<PlanContext> = {}): Timing[] =>
  timingsOf(r, { kind, temperatureC: 20, invertB: false, ...more });
const moves = (timings: Timing[]): number[] => timings.flatMap(({ moveCm }) => moveCm ?? []);
const delays = (timings: Timing[]): number[] => timings.flatMap(({ delayMs }) => delayMs ?? []);
/** at 343.21 m/s */
const msOf = (cm: number): number => cm / 34.321;
const standing = (fields: { moveCm?: number; delayMs?: number }): Partial<PlanContext> => ({
  standing: { invertB: false, delayMs: null, moveCm: null, fine: false, ...fields },
});

describe('what is offered', () => {
  it('the present comes first, and nothing is both moved and delayed', () => {
    for (const kind of PAIR_KIND_IDS) {
      const timings = of(measured('same', 5), kind);
      expect([timings[0]?.delayMs, timings[0]?.moveCm]).toEqual([null, null]);
      for (const { delayMs, moveCm } of timings.slice(1)) expect((delayMs === null) !== (moveCm === null)).toBe(true);
    }
  });

  it.each<[PairKindId, number, number[]]>([
    ['same-side', 0.9, []],
    ['same-side', 1.1, [1]],
    ['same-side', 3.2, [3]],
    ['same-side', 3.3, [3.5]],
    ['same-side', -4, [-4]],
    ['same-side', 14.4, [14]],
    ['same-side', 29, [29]],
    ['two-overheads', 2.8, []],
    ['two-overheads', 12.6, [13]],
    ['two-overheads', 95, [95]],
    ['top-bottom', 1.5, []],
    ['top-bottom', 4.1, [4]],
    ['top-bottom', -5.9, [-6]],
    // the drum lies between them
    ['top-bottom', 6.1, []],
    ['inside-outside', 35, []],
    ['both-sides-kick', 28, []],
    ['shell-other', 20, []],
    ['close-overhead', 95, []],
    ['close-room', 300, []],
    ['low-end-driver', 20, []],
    ['other', 5, []],
  ])('%s, B %d cm late: moves of %o cm', (kind, cm, expected) => {
    expect(moves(of(measured('same', cm), kind))).toEqual(expected);
  });

  it.each([
    [7.3, 0.4, 7.5],
    [7.3, 1.2, 7],
    [7.3, 2.4, 7],
    [17.3, 5.4, 17],
  ])('%d cm known to %d cm is a move of %d cm, which is the path as it is said', (cm, knownCm, moveCm) => {
    expect(moves(of(measured('same', cm, known(knownCm)), 'same-side'))).toEqual([moveCm]);
    expect(pathSaidCm({ pathCm: cm, repeatsCm: 0, uncertaintyCm: knownCm })).toBe(moveCm);
  });

  it('no move below twice the spread, in an unknown direction, or of an unknown distance', () => {
    expect(moves(of(measured('same', 3, {}, 1.6), 'same-side'))).toEqual([]);
    expect(moves(of(measured('same', 3, known(4)), 'same-side'))).toEqual([]);
    expect(moves(of(measured('same', 3, known(null)), 'same-side'))).toEqual([]);
  });

  it.each(PAIR_KIND_IDS.filter((kind) => !['same-side', 'close-room'].includes(kind)))(
    '%s: the delay of the arrival, to 0.01 ms, of its sign',
    (kind) => {
      // 20 cm at 343.21 m/s: 0.5827 ms
      expect(delays(of(measured('same', 20), kind))[0]).toBe(0.58);
      expect(delays(of(measured('inverted', -20), kind))[0]).toBe(-0.58);
    },
  );

  it('no delay of the arrival within the tolerance of the kind, and none below 0.05 ms', () => {
    // 1.5 cm: 0.04 ms
    expect(delays(of(measured('same', 1.5), 'close-overhead'))).toEqual([]);
    // 4 cm, 0.117 ms, lie within the tolerance of 5 cm: what is best for the sum is offered all the same
    expect(delays(of(measured('same', 4, NO_SUM), 'close-overhead'))).toEqual([]);
    expect(delays(of(measured('same', 6, NO_SUM), 'close-overhead'))).toEqual([0.17]);
  });
});

describe('the best delay for the sum', () => {
  /** the arrival at 100 cm, the bodies of the sounds meet at another delay */
  const apart = (ms: number, polarity: Polarity = 'same', fields: Partial<Flat> = {}): Reading => {
    const nearSamples = 100 / CM_PER_SAMPLE;
    const model = sumOf({ polarity, delaySamples: (ms / 1000) * RATE, nearSamples, lowHz: 250 });
    return measured('same', 100, { ...model, ...fields });
  };
  const arrival = msOf(100);

  it.each([0.3, -0.4, 0.8])('is found %d ms from the arrival', (off) => {
    const [own, best] = delays(of(apart(arrival + off), 'close-overhead'));
    expect(own).toBe(2.91);
    // as good: within 0.15 dB of the best, and the nearest of these to the arrival
    expect(Math.abs((best as number) - arrival)).toBeLessThanOrEqual(Math.abs(off) + 0.011);
    expect(Math.sign((best as number) - arrival)).toBe(Math.sign(off));
    const level = (ms: number, i: number): number =>
      10 *
      Math.log10(
        1 +
          (sumOf({
            polarity: 'same',
            delaySamples: ((arrival + off - ms) / 1000) * RATE,
            lowHz: 250,
            nearSamples: null,
          }).now?.[i] as number),
      );
    const gain = (ms: number): number => Math.min(level(ms, 0) - level(0, 0), level(ms, 1) - level(0, 1));
    // by hundredths of a millisecond; 0.05 dB for a delay that is told to 0.01 ms
    const most = Math.max(...Array.from({ length: 201 }, (_, i) => gain(arrival + (i - 100) / 100)));
    expect(gain(best as number)).toBeGreaterThan(most - AS_GOOD_DB / 2 - 0.05);
  });

  it('is found with either polarity', () => {
    const [, same] = delays(of(apart(arrival + 0.3), 'close-overhead'));
    const [, inverted] = delays(of(apart(arrival + 0.3, 'inverted'), 'close-overhead'));
    expect(same).toBeGreaterThan(arrival + 0.1);
    expect(inverted).toBeGreaterThan(arrival + 0.1);
  });

  it('lies within 1 ms of the arrival, however good it is beyond', () => {
    for (const off of [-3, -1.1, 1.1, 3])
      for (const ms of delays(of(apart(arrival + off), 'close-overhead')))
        expect(Math.abs(ms - arrival)).toBeLessThanOrEqual(1.005);
  });

  it('of equals is the nearest to the arrival: one delay where the sound is that of the arrival', () => {
    expect(delays(of(measured('same', 100), 'close-overhead'))).toEqual([2.91]);
    // nothing but silence round it: all delays are equal
    const flatSum = measured('same', 100, sumOf({ polarity: 'same', delaySamples: 100 / CM_PER_SAMPLE, common: 0 }));
    expect(delays(of(flatSum, 'close-overhead'))).toEqual([2.91]);
  });

  it('is none where the hits don’t carry the low octave, or the whole', () => {
    for (const less of [{ lowHz: null }, { all: false }]) {
      const nearSamples = 100 / CM_PER_SAMPLE;
      const model = sumOf({ polarity: 'same', delaySamples: nearSamples + 20, nearSamples, ...less });
      expect(delays(of(measured('same', 100, model), 'close-overhead'))).toEqual([2.91]);
    }
  });
});

describe('what A+B comes to', () => {
  it('as it stands and turned over, dB re the power sum', () => {
    const r = measured('same', 100);
    const { now } = r.sum;
    const [present] = of(r, 'close-overhead');
    const db = (re: number): number => 10 * Math.log10(1 + re);
    expect(present?.asIs.lowDb).toBeCloseTo(db(now[0] as number), 9);
    expect(present?.inverted.allDb).toBeCloseTo(db(-(now[1] as number)), 9);
    expect(present?.asIs.bandsDb[3]).toBeCloseTo(db(now[5] as number), 9);
  });

  it('once the arrivals meet it is as full as the coherency lets it be', () => {
    // |γ| = 0.9: 10·log10(1.9) = 2.79 dB, −10 dB turned over
    for (const [kind, cm] of [
      ['close-overhead', 100],
      ['same-side', 3],
    ] as const) {
      for (const after of of(measured('same', cm), kind).slice(1)) {
        expect(after.asIs.lowDb).toBeCloseTo(2.79, 1);
        expect(after.asIs.allDb).toBeGreaterThan(2.3);
        expect(after.inverted.lowDb).toBeLessThan(-9.5);
      }
    }
  });

  it('is not known beyond what the reading tells of', () => {
    const r = measured('same', 100, { near: null });
    const [present, after] = of(r, 'close-overhead');
    expect(present?.asIs.lowDb).not.toBeNull();
    expect(after).toMatchObject({
      delayMs: 2.91,
      asIs: { lowDb: null, allDb: null, bandsDb: [null, null, null, null] },
    });
    // an arrival that moved further from where the values lie than they reach: 60 samples at 48 kHz are 1.25 ms
    const off = (samples: number): number | null | undefined => {
      const moved = changed(measured('same', 100), { delaySamples: 100 / CM_PER_SAMPLE + samples });
      return of(moved, 'close-overhead').find(({ delayMs }) => delayMs !== null)?.asIs.lowDb;
    };
    expect(off(55)).not.toBeNull();
    expect(off(65)).toBeNull();
  });

  it('is that of the inputs: the meter’s own invert is taken out', () => {
    for (const kind of PAIR_KIND_IDS)
      for (const cm of [0.3, 4, -20]) {
        const r = measured('inverted', cm);
        expect(of(turnedOver(r), kind, { invertB: true })).toEqual(of(r, kind));
      }
  });
});

describe('nothing is told', () => {
  it.each<[string, Reading, PairKindId]>([
    [
      'while a microphone moves',
      reading({
        state: 'following',
        reason: 'moving',
        delaySamples: 9,
        ...sumOf({ polarity: 'same', delaySamples: 9 }),
      }),
      'other',
    ],
    [
      'while too few hits are heard',
      reading({ state: 'listening', reason: 'too-few-hits', ...sumOf({ polarity: 'same', delaySamples: 9 }) }),
      'other',
    ],
    [
      'of an input at fault',
      reading({ state: 'no-signal', reason: 'b-silent', ...sumOf({ polarity: 'same', delaySamples: 9 }) }),
      'other',
    ],
    ['of one signal twice', reading({ state: 'same-signal', reason: 'gain-copy' }), 'other'],
    ['where neither sum nor arrival carries anything', reading({ state: 'unclear', reason: 'hits-disagree' }), 'other'],
    ['of two that are further apart than such a pair ever is', measured('same', 31), 'same-side'],
    ['of two overheads further apart than that', measured('same', -105), 'two-overheads'],
  ])('%s', (_, r, kind) => {
    expect(of(r, kind)).toEqual([]);
  });

  it('without an arrival the present alone; without a sum the arrival alone', () => {
    const unclear = reading({
      state: 'unclear',
      reason: 'hits-disagree',
      ...sumOf({ polarity: 'same', delaySamples: 9, nearSamples: null }),
    });
    expect(of(unclear, 'same-side')).toHaveLength(1);
    const silent = of(measured('same', 20, NO_SUM), 'other');
    expect(silent.map(({ delayMs, asIs }) => [delayMs, asIs.lowDb, asIs.allDb])).toEqual([
      [null, null, null],
      [0.58, null, null],
    ]);
  });
});

describe('what stood is kept', () => {
  it.each([
    // while the path is within 0.75 cm of it
    [3.7, 3, 0.2, 3],
    [3.76, 3, 0.2, 4],
    [2.26, 3, 0.2, 3],
    [2.2, 3, 0.2, 2],
    // or within three times what the hits repeat to
    [4.4, 3, 0.5, 3],
    [4.6, 3, 0.5, 4.5],
    // below the tolerance no move would be new
    [0.8, 1.5, 0.2, 1.5],
  ])('a move: the path is %d cm, %d cm stood, the spread %d cm: %d cm', (cm, stood, repeats, moveCm) => {
    expect(moves(of(measured('same', cm, {}, repeats), 'same-side', standing({ moveCm: stood })))).toEqual([moveCm]);
  });

  it('a move of a kind that isn’t moved is none', () => {
    expect(moves(of(measured('same', 3), 'other', standing({ moveCm: 3 })))).toEqual([]);
  });

  it('a delay: first of all, and instead of one that lies less than 0.05 ms from it', () => {
    expect(delays(of(measured('same', 100), 'close-overhead', standing({ delayMs: 2.92 })))).toEqual([2.92]);
    expect(delays(of(measured('same', 100), 'close-overhead', standing({ delayMs: 2.925 })))).toEqual([2.925]);
    expect(delays(of(measured('same', 100), 'close-overhead', standing({ delayMs: 2.87 })))).toEqual([2.87]);
    expect(delays(of(measured('same', 100), 'close-overhead', standing({ delayMs: 2.86 })))).toEqual([2.86, 2.91]);
  });

  it('what a person chose comes before what stood', () => {
    const chosen = (fields: { moveCm?: number; delayMs?: number }) => ({
      chosen: { invertB: false, delayMs: null, moveCm: null, ...fields },
    });
    expect(
      moves(of(measured('same', 3.3), 'same-side', { ...standing({ moveCm: 3.5 }), ...chosen({ moveCm: 3 }) })),
    ).toEqual([3]);
    const both = { ...standing({ delayMs: 2.86 }), ...chosen({ delayMs: 2.8 }) };
    expect(delays(of(measured('same', 100), 'close-overhead', both))).toEqual([2.8, 2.86, 2.91]);
  });
});
