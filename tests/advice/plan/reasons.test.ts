import { describe, expect, it } from 'vitest';
import { type Agreeing, agreeingOf, endedReasonOf, reasonOf, statedOf } from '../../../src/advice/plan/reasons';
import { REASONS, STATES } from '../../../src/reading/codes';
import type { Flat } from '../../support/readings/flat';
import { reading } from '../readings';

const reasonWith = (fields: Partial<Flat>) =>
  reasonOf(statedOf(reading({ polarity: 'same', delaySamples: 3, ...fields })));

describe('a reason', () => {
  it('is the reading’s own, where it belongs to the state', () => {
    for (const reason of REASONS) {
      if (reason === 'agreed' || reason === 'too-few-hits') continue;
      expect(reasonWith({ state: 'unclear', reason })).toEqual({ code: reason });
    }
  });

  it.each<[Partial<Flat>, string]>([
    [{ state: 'no-signal', reason: 'agreed' }, 'both-silent'],
    [{ state: 'same-signal', reason: 'a-silent' }, 'gain-copy'],
    [{ state: 'overloaded', reason: 'agreed' }, 'clipped-a'],
    [{ state: 'unclear', reason: 'agreed' }, 'hits-disagree'],
    [{ state: 'following', reason: 'agreed' }, 'moving'],
    [{ state: 'listening', reason: 'agreed', hitsPooled: 1 }, 'too-few-hits'],
    [{ state: 'measured', reason: 'moved' }, 'agreed'],
  ])('stands in where the reading’s own does not belong to the state: %o', (fields, code) => {
    expect(reasonWith(fields).code).toBe(code);
  });

  it.each([
    [0, { code: 'no-usable-hit' }],
    [1, { code: 'too-few-hits', hits: 1, needed: 4 }],
    [3, { code: 'too-few-hits', hits: 3, needed: 4 }],
    [4, { code: 'too-few-agree' }],
  ])('counts what is missing: %d in the running', (hitsPooled, reason) => {
    expect(reasonWith({ reason: 'too-few-hits', hitsPooled })).toEqual(reason);
  });

  it('is a matter of time in a few cases only', () => {
    const timely = REASONS.filter(
      (reason) => endedReasonOf(statedOf(reading({ state: 'unclear', reason, hitsPooled: 5 }))) !== null,
    );
    expect(timely).toEqual(['nothing-yet', 'too-few-hits', 'moving', 'moved']);
    for (const state of STATES) {
      const stated = statedOf(reading({ state, reason: 'push-and-shape-disagree', polarity: 'same', delaySamples: 3 }));
      expect([state, endedReasonOf(stated)?.code]).toEqual([state, state === 'following' ? 'still-moving' : undefined]);
    }
  });
});

it.each<[number, number, number, number | null, Agreeing]>([
  [6, 6, 6, 1, { agree: 6, of: 6, moreHeard: false }],
  [18, 11, 10, 10 / 11, { agree: 10, of: 11, moreHeard: true }],
  [8, 8, 3, null, { agree: 3, of: 8, moreHeard: false }],
  // more used than pooled: then those are what is in the running
  [9, 4, 6, 0.5, { agree: 3, of: 6, moreHeard: true }],
])('%d heard, %d in the running, %d used, %s agree', (hits, hitsPooled, hitsUsed, agreement, agreeing) => {
  expect(agreeingOf({ hits, hitsPooled, hitsUsed, agreement })).toEqual(agreeing);
});
