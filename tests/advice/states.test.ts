/** Advice without an answer: what is missing, what to put right, a recording that is over, cautions. */

import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise } from '../../src/advice/advise';
import { PAIR_KIND_IDS, type PairKindId } from '../../src/advice/plan/pairKinds';
import { reasonSentence } from '../../src/advice/words/reasonWords';
import type { Reading } from '../../src/reading/reading';
import type { Flat } from '../support/readings/flat';
import { measured, reading } from './readings';

function about(kind: PairKindId, r: Reading, more: Partial<AdviceContext> = {}): Advice {
  return advise(r, { kind, temperatureC: 20, invertB: false, ...more });
}

describe('without an answer', () => {
  it.each<[Partial<Flat>, string, RegExp]>([
    [
      { state: 'no-signal', reason: 'a-silent' },
      'fix-input',
      /^A is silent: with the drummer stopped and monitors down, check its cable.*phantom/,
    ],
    [
      { state: 'same-signal', reason: 'gain-copy' },
      'fix-input',
      /^A and B carry the same signal, apart from gain or polarity/,
    ],
    [
      { state: 'same-signal', reason: 'bit-identical' },
      'fix-input',
      /^A and B carry the same signal: one input feeds both/,
    ],
    [{ state: 'overloaded', reason: 'clipped-b' }, 'fix-input', /turn B’s gain down/],
    [{ state: 'listening', reason: 'nothing-yet' }, 'hit-more', /^No hit has been heard yet/],
    [{ state: 'listening', reason: 'too-few-hits', hitsPooled: 2 }, 'hit-more', /^Hit 2 of 4/],
    [{ state: 'unclear', reason: 'moved' }, 'hit-more', /keep hitting/],
  ])('%o: %s', (fields, action, text) => {
    const a = about('other', reading(fields));
    expect(a.action).toBe(action);
    expect(a.text).toMatch(text);
  });
});

describe('a recording that is over', () => {
  const over = (fields: Partial<Flat>): Advice => about('other', reading(fields), { ended: true });

  it.each<[Partial<Flat>, string]>([
    [{ reason: 'too-few-hits', hitsPooled: 2 }, 'Only 2 usable hits in this recording; 4 are needed.'],
    [{ reason: 'too-few-hits', hitsPooled: 1 }, 'Only 1 usable hit in this recording; 4 are needed.'],
    [{ reason: 'too-few-hits', hitsPooled: 0 }, 'No usable hit in this recording; 4 are needed.'],
    [{ reason: 'too-few-hits', hitsPooled: 5 }, 'Too few of the 5 usable hits in this recording agree.'],
    [{ reason: 'nothing-yet' }, 'No hit in this recording; 4 are needed.'],
    [{ reason: 'moved' }, 'Something moved, and too few hits follow in this recording; 4 are needed.'],
  ])('%o: %s', (fields, text) => {
    const a = over(fields);
    expect([a.action, a.text]).toEqual(['hit-more', text]);
    expect(reasonSentence(reading(fields), true)).toBe(text);
  });

  it('never asks for another hit, and says everything else as ever', () => {
    const moving = over({ state: 'following', reason: 'moving', hits: 8, delaySamples: 9 });
    expect(moving.text).toMatch(/^A mic was still being moved when this recording ended/);
    for (const a of [moving, over({ reason: 'too-few-hits' }), over({ reason: 'nothing-yet' })]) {
      expect(`${a.text} ${a.callOut} ${a.sureness}`).not.toMatch(/keep|yet/i);
    }
    // where the accuracy isn't known, no later hit will tell
    for (const kind of PAIR_KIND_IDS) {
      const unknown = measured('same', 0.3, { uncertaintySamples: null });
      const [a, live] = [about(kind, unknown, { ended: true }), about(kind, unknown)];
      expect(live.sureness).toMatch(/; accuracy unknown so far$/);
      expect(a.sureness).toMatch(/; accuracy unknown$/);
      expect(`${a.text} ${a.callOut} ${a.sureness} ${a.notes}`).not.toMatch(/yet/);
    }
    const r = measured('same', 3);
    expect(about('same-side', r, { ended: true })).toEqual(about('same-side', r));
  });
});

describe('phantom power', () => {
  it('is a caution of the low-end driver in every state', () => {
    for (const r of [reading(), measured('same', 100), reading({ state: 'no-signal', reason: 'b-silent' })]) {
      expect(about('low-end-driver', r).cautions.join(' ')).toMatch(/phantom/);
      expect(about('other', r).cautions.join(' ')).not.toMatch(/phantom/);
    }
  });
});
