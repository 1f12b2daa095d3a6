/** Each part of the 90 % uncertainty by itself: the square root of the sum of their squares, worked out by hand, in µs. */
import { describe, expect, it } from 'vitest';
import { doubtOf } from '../../support/rules/drumRules';
import { named } from '../../support/rules/named';
import { type MadeHit, times } from '../../support/rules/rules';

/** 90 % of a normal distribution */
const NINETY = 1.645;
/** what a pick cannot know better: 14 µs */
const FLOOR = NINETY * 14;
const plain = times(8);
const at = { atUs: 1000 };
const near = { atUs: 1000 };
const turns = (hit: (way: number) => MadeHit): MadeHit[] => Array.from({ length: 8 }, (_, i) => hit(i % 2 ? 1 : -1));

describe('the 90 % uncertainty', () => {
  it.each(
    named([
      { name: 'nothing else: what a pick can know', hits: plain, answer: at, fit: near, parts: [] },
      // a deviation is 1.4826 times the median one
      {
        name: 'four hits that repeat within 10 µs',
        hits: plain,
        answer: { ...at, spreadUs: 10, members: 4 },
        fit: near,
        parts: [(NINETY * 1.4826 * 10) / 2, 10],
      },
      {
        name: 'sixteen hits that repeat within 10 µs',
        hits: plain,
        answer: { ...at, spreadUs: 10, members: 16 },
        fit: near,
        parts: [(NINETY * 1.4826 * 10) / 4, 10],
      },
      { name: 'the best fit 30 µs later', hits: plain, answer: at, fit: { atUs: 1030 }, parts: [36] },
      { name: 'the best fit 30 µs earlier', hits: plain, answer: at, fit: { atUs: 970 }, parts: [36] },
      { name: 'the best fit 0.499 ms off', hits: plain, answer: at, fit: { atUs: 1499 }, parts: [1.2 * 499] },
      { name: 'B rises 40 µs slower', hits: times(8, { riseUs: 40 }), answer: at, fit: near, parts: [6] },
      {
        name: 'either rises 40 µs slower by turns',
        hits: turns((way) => ({ riseUs: 40 * way })),
        answer: at,
        fit: near,
        parts: [6],
      },
      {
        name: 'tops that differ by 6 dB, which is usual',
        hits: times(8, { tiltB: 6 }),
        answer: at,
        fit: near,
        parts: [],
      },
      { name: 'by 9 dB', hits: times(8, { tiltA: 10, tiltB: 1 }), answer: at, fit: near, parts: [36] },
      {
        name: 'by 9 dB on average',
        hits: turns((way) => ({ tiltB: 9 + 9 * way })),
        answer: at,
        fit: near,
        parts: [36],
      },
      {
        name: 'by 9 dB one way, then the other: alike',
        hits: turns((way) => ({ tiltB: 9 * way })),
        answer: at,
        fit: near,
        parts: [],
      },
      { name: 'noise may move it by 50 µs', hits: plain, answer: { ...at, noiseMoveUs: 50 }, fit: near, parts: [50] },
      {
        name: 'all of them',
        hits: times(8, { riseUs: 40, tiltB: 9 }),
        answer: { ...at, spreadUs: 10, members: 4, noiseMoveUs: 50 },
        fit: { atUs: 1030 },
        parts: [(NINETY * 1.4826 * 10) / 2, 10, 36, 6, 36, 50],
      },
      {
        name: 'inverted, as the best fit',
        hits: plain,
        answer: { ...at, sign: -1 },
        fit: { ...near, sign: -1 },
        parts: [],
      },
    ]),
  )('%s', (_, { hits, answer, fit, parts }) => {
    expect(doubtOf(hits, answer, fit).uncertaintyUs).toBeCloseTo(Math.hypot(FLOOR, ...parts), 6);
  });

  it.each(
    named([
      { name: 'a best fit of the other sign', fit: { atUs: 1000, sign: -1 } },
      { name: 'a best fit 0.501 ms later', fit: { atUs: 1501 } },
      { name: 'a best fit 0.501 ms earlier', fit: { atUs: 499 } },
      { name: 'no best fit', fit: undefined },
    ]),
  )('isn’t known: %s', (_, { fit }) => expect(doubtOf(plain, at, fit).uncertaintyUs).toBeNaN());
});

describe('microphones so unlike that a first push proves nothing by itself', () => {
  it.each(
    named([
      { name: '8 dB less top in B', hits: times(8, { tiltB: 8 }), unlike: true },
      { name: '8 dB less top in A', hits: times(8, { tiltA: 8 }), unlike: true },
      { name: '7.9 dB', hits: times(8, { tiltB: 7.9 }), unlike: false },
      { name: 'both dull', hits: times(8, { tiltA: 20, tiltB: 20 }), unlike: false },
      { name: '8 dB on average', hits: turns((way) => ({ tiltB: 8 + 8 * way })), unlike: true },
    ]),
  )('%s', (_, { hits, unlike }) => expect(doubtOf(hits, at, near).unlike).toBe(unlike));
});
