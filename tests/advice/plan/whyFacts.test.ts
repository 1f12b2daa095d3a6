import { describe, expect, it } from 'vitest';
import { type Why, whyOf } from '../../../src/advice/plan/whyFacts';
import type { Reading } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { hit } from '../hits';
import { CM_PER_SAMPLE, drum, measured, reading } from '../readings';

const why = (r: Reading, ended = false): Why[] => whyOf(r, { temperatureC: 20, ended });
const codes = (r: Reading): string[] => why(r).map(({ code }) => code);

/** a curve of ±1 at `lag` samples */
function curve(lag: number, sign: number): Reading['curve'] {
  const values = new Float64Array(201);
  values[100 + lag] = sign;
  values[40] = -0.4 * sign;
  return { values, stepSamples: 1, hits: 6 };
}

describe('how an answer came about', () => {
  it('is the landmark, what agrees, how closely it repeats, how true it is, and the other witness', () => {
    const lag = Math.round(10 / CM_PER_SAMPLE);
    expect(why(measured('inverted', 10, { curve: curve(lag, -1) }))).toEqual([
      { code: 'decided-by', method: 'first-arrival' },
      {
        code: 'agreed',
        agreeing: { agree: 6, of: 6, moreHeard: false },
        polarity: 'inverted',
        pathCm: expect.closeTo(10, 9),
        // 0.29136 ms, as finely as the path is told
        delayMs: 0.29,
      },
      { code: 'repeats-within', cm: expect.closeTo(0.2, 9) },
      { code: 'true-to', cm: expect.closeTo(0.4, 9) },
      { code: 'waveforms', confirm: true, apartMs: expect.any(Number), polarity: 'inverted' },
    ]);
  });

  it.each<[number, number, boolean, number]>([
    [20, 1, true, 0],
    // near, but with the other sign, is no agreement
    [20, -1, false, 0],
    [44, 1, false, 0.5],
    [-4, 1, false, -0.5],
  ])('a peak at %d samples with the sign %d confirms 20 samples: %s', (lag, sign, confirm, apartMs) => {
    const r = measured('same', 10, { delaySamples: 20, curve: curve(lag, sign) });
    const polarity = sign < 0 ? 'inverted' : 'same';
    expect(why(r).at(-1)).toEqual({ code: 'waveforms', confirm, apartMs: expect.closeTo(apartMs, 9), polarity });
  });

  it('leaves out what isn’t known', () => {
    const r = measured('same', 10, { method: null, spreadSamples: null, uncertaintySamples: null });
    expect(why(r).slice(1)).toEqual([{ code: 'true-to', cm: null }]);
    expect(codes(r)).toEqual(['agreed', 'true-to']);
  });
});

describe('why there is no answer', () => {
  it.each<[Partial<Flat>, string[]]>([
    [{ reason: 'too-few-hits', hitsPooled: 2, hits: 2 }, ['reason', 'in-the-running']],
    [
      { state: 'unclear', reason: 'hits-disagree', hitsPooled: 10, hits: 10, agreement: 0.4 },
      ['reason', 'agree-with-each-other'],
    ],
    [{ state: 'unclear', reason: 'hits-disagree', hitsPooled: 10, hits: 10, agreement: null }, ['reason']],
    // four are enough to tell how many of them agree
    [
      { state: 'unclear', reason: 'hits-disagree', hitsPooled: 4, hits: 4, agreement: 0.5 },
      ['reason', 'agree-with-each-other'],
    ],
    [
      { state: 'unclear', reason: 'arrival-hidden', hitsPooled: 8, hits: 8, agreement: 1 },
      ['reason', 'agree-with-each-other', 'agreement-is-no-proof'],
    ],
    [
      { state: 'unclear', reason: 'push-and-shape-disagree', hitsPooled: 8, hits: 8, agreement: 1 },
      ['reason', 'agree-with-each-other', 'push-and-shape-disagree'],
    ],
    [
      { state: 'following', reason: 'moving', hitsPooled: 6, agreement: 1 },
      ['reason', 'agree-with-each-other', 'newest-only'],
    ],
    // no agreement is claimed on an arrival that can't be read
    [
      { state: 'unclear', reason: 'lows-only-a', hits: 10, hitsPooled: 10, hitsUsed: 10, agreement: 1 },
      ['reason', 'counted-for-the-sum'],
    ],
    [{ state: 'no-signal', reason: 'b-silent' }, ['reason']],
    [{ state: 'same-signal', reason: 'gain-copy' }, ['reason']],
  ])('%o: %s', (fields, expected) => {
    expect(codes(reading(fields))).toEqual(expected);
  });

  it('has its numbers, and the drum where several are heard', () => {
    const two = { drum: 2, drums: [drum(2), drum(1)], drumChosen: true };
    const which = { code: 'chosen', drum: 2 };
    const few = reading({ reason: 'too-few-hits', hitsPooled: 2, ...two });
    expect(why(few)[1]).toEqual({ code: 'in-the-running', hits: 2, needed: 4, which });
    const dull = reading({ state: 'unclear', reason: 'lows-only-b', hitsPooled: 9, hitsUsed: 9, ...two });
    expect(why(dull)[1]).toEqual({ code: 'counted-for-the-sum', hits: 9, which });
    const over = reading({ reason: 'too-few-hits', hitsPooled: 2 });
    expect(why(over, true)[0]).toEqual({
      code: 'reason',
      reason: { ended: true, code: 'too-few-hits', hits: 2, needed: 4 },
    });
  });
});

it('counts what was left out, by fate, most first, and of which hits', () => {
  const perHit = [
    hit(1, 'used'),
    hit(2, 'other-drum', { drum: 2 }),
    hit(3, 'used', { drum: 2 }),
    hit(4, 'clipped'),
    hit(5, 'pending'),
    hit(6, 'two-drums', { drum: 2 }),
  ];
  const counts = [
    ['other-drum', 2],
    ['clipped', 1],
    ['two-drums', 1],
  ];
  const left = (fields: Partial<Flat>) => why(measured('same', 10, { drum: 1, ...fields })).at(-1);
  expect(left({ perHit, hits: 6 })).toEqual({ code: 'left-out', counts, ofNewest: null });
  expect(left({ perHit, hits: 50 })).toEqual({ code: 'left-out', counts, ofNewest: 6 });
  expect(left({ perHit: [hit(1, 'used')], hits: 1 })?.code).toBe('true-to');
});
