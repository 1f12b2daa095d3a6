/** The plan of a reading without an arrival: what is missing, what to put right, what the sum says all the same. */
import { describe, expect, it } from 'vitest';
import { PAIR_KIND_IDS, type PairKindId } from '../../../src/advice/plan/pairKinds';
import type { FollowingPlan, Plan } from '../../../src/advice/plan/planTypes';
import { lowEndOnly } from '../../../src/advice/plan/reasons';
import { answerOf, type Reading } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { CM_PER_SAMPLE, drum, measured, reading, sumOf } from '../readings';
import { about, brief, noted, planOf } from './plans';

describe('what comes of a state', () => {
  it.each<[Partial<Flat>, Plan['type'], string]>([
    [{ state: 'no-signal', reason: 'a-silent' }, 'fix-input', 'a-silent'],
    [{ state: 'no-signal', reason: 'agreed' }, 'fix-input', 'both-silent'],
    [{ state: 'same-signal', reason: 'gain-copy' }, 'fix-input', 'gain-copy'],
    [{ state: 'same-signal', reason: 'bit-identical' }, 'fix-input', 'bit-identical'],
    [{ state: 'overloaded', reason: 'clipped-b' }, 'fix-input', 'clipped-b'],
    [{ state: 'listening', reason: 'nothing-yet' }, 'hit-more', 'nothing-yet'],
    [{ state: 'listening', reason: 'too-few-hits', hitsPooled: 2 }, 'hit-more', 'too-few-hits'],
    [{ state: 'unclear', reason: 'moved' }, 'hit-more', 'moved'],
    [{ state: 'unclear', reason: 'too-few-hits', hitsPooled: 5 }, 'hit-more', 'too-few-agree'],
    [{ state: 'unclear', reason: 'hits-disagree' }, 'no-answer', 'hits-disagree'],
    [{ state: 'unclear', reason: 'agreed' }, 'no-answer', 'hits-disagree'],
    [{ state: 'unclear', reason: 'no-common-signal' }, 'no-answer', 'no-common-signal'],
    [{ state: 'unclear', reason: 'which-drum' }, 'no-answer', 'which-drum'],
    [{ state: 'following', reason: 'moving' }, 'following', 'moving'],
  ])('%o: %s, because %s', (fields, type, code) => {
    const made = about('other', reading(fields));
    expect([made.type, ...brief(made).slice(1)]).toEqual([type, null, null]);
    expect(made.action).toBe({ 'no-answer': 'cannot-tell', following: 'hit-more' }[type as string] ?? type);
    expect('reason' in made ? made.reason.code : null).toBe(code);
  });

  it('an input that is overloaded only wants its gain turned down', () => {
    const fix = (fields: Partial<Flat>) => planOf('fix-input', 'other', reading(fields)).overloaded;
    expect(fix({ state: 'overloaded', reason: 'clipped-a' })).toBe(true);
    expect(fix({ state: 'no-signal', reason: 'a-silent' })).toBe(false);
  });

  it.each<[Partial<Flat>, string, string]>([
    [{ state: 'no-signal', reason: 'a-silent' }, 'no-reading', 'a-silent'],
    [{ state: 'listening', reason: 'nothing-yet' }, 'hit-more', 'nothing-yet'],
    [{ state: 'unclear', reason: 'hits-disagree' }, 'cannot-tell', 'hits-disagree'],
  ])('how sure is the reason, and the drum where there are several: %o', (fields, code, reason) => {
    expect(about('other', reading(fields)).sureness).toMatchObject({ code, reason: { code: reason }, which: null });
    const several = about('other', reading({ ...fields, drum: 2, drums: [drum(2), drum(1)] }));
    expect(several.sureness).toMatchObject({ code, which: { code: 'picked' } });
  });

  it('an arrival without a number is none', () => {
    const made = planOf(
      'no-answer',
      'other',
      measured('same', 3, { delaySamples: Number.NaN, now: [null, null, null, null, null, null] }),
    );
    expect([made.action, made.reason]).toEqual(['cannot-tell', { code: 'agreed', agree: 6, of: 6, moreHeard: false }]);
  });
});

describe('open which drum is meant', () => {
  const two: Partial<Flat> = { state: 'unclear', reason: 'which-drum', drums: [drum(1), drum(2)] };

  it('nothing is advised, whatever a sum says, and why is told', () => {
    const now = [0.9, 0.9, null, null, null, null];
    for (const kind of PAIR_KIND_IDS) {
      const made = planOf('no-answer', kind, reading({ ...two, ...sumOf({ polarity: 'same', delaySamples: 0 }), now }));
      expect(brief(made)).toEqual(['cannot-tell', null, null]);
      expect(made.notes).toEqual([{ code: 'several-heard' }]);
      expect(made.sureness).toEqual({ code: 'cannot-tell', reason: { code: 'which-drum' }, which: null });
    }
  });
});

describe('a pair that has no arrival', () => {
  /** |γ| = 0.9, no delay: 2.79 dB one way, −10 dB the other */
  const INVERTED = sumOf({ polarity: 'inverted', delaySamples: 0, nearSamples: null });
  const unclear = (fields: Partial<Flat> = {}): Reading =>
    reading({ state: 'unclear', reason: 'hits-disagree', hits: 8, ...fields });

  it('has the sum where there is one, as things stand', () => {
    const made = planOf('answer', 'other', unclear(INVERTED));
    expect([made.action, made.gap, made.distance, made.fine]).toEqual(['invert', null, null, false]);
    expect(made.recommended.lowDb).toBeCloseTo(12.79, 1);
    expect(made.missing).toEqual({ reason: { code: 'hits-disagree' }, hopeless: false });
    expect(made.sureness).toMatchObject({ code: 'cannot-tell', reason: { code: 'hits-disagree' } });
    expect(made.notes).toEqual([{ code: 'no-timing', ...made.missing }, { code: 'sum-of-now' }]);
    // neither moves nor delays without an arrival
    expect(made.alternatives).toHaveLength(2);
    expect(planOf('answer', 'same-side', unclear(INVERTED)).alternatives).toHaveLength(2);
    const good = planOf('answer', 'other', unclear(sumOf({ polarity: 'same', delaySamples: 0, nearSamples: null })));
    expect([good.action, good.fine]).toEqual(['leave', false]);
  });

  it('is left where what a flip would gain isn’t known', () => {
    for (const less of [{ lowHz: null }, { all: false }]) {
      const sum = sumOf({ polarity: 'inverted', delaySamples: 0, nearSamples: null, ...less });
      expect(planOf('answer', 'other', unclear(sum)).action).toBe('leave');
    }
  });

  it('has no answer where the two have nothing in common, whatever a band says', () => {
    expect(about('other', unclear({ ...INVERTED, reason: 'no-common-signal' })).type).toBe('no-answer');
    expect(about('other', unclear()).type).toBe('no-answer');
  });

  it('is hopeless after twelve hits, or where a microphone hears only the lows', () => {
    for (const [hits, hopeless] of [
      [11, false],
      [12, true],
    ] as const) {
      expect(planOf('no-answer', 'other', unclear({ hits })).hopeless).toBe(hopeless);
      expect(noted(about('other', unclear({ hits, ...INVERTED })), 'no-timing')?.hopeless).toBe(hopeless);
    }
    // few hits or many, with either microphone: the pictures and the plan go by one bound
    for (const reason of ['lows-only-a', 'lows-only-b', 'hits-disagree'] as const) {
      const few = unclear({ reason, hits: 5 });
      expect(planOf('no-answer', 'other', few).hopeless).toBe(lowEndOnly(answerOf(few)) !== null);
    }
  });
});

describe('a microphone on the move', () => {
  const following = (cm: number | null): Reading =>
    reading({
      state: 'following',
      reason: 'moving',
      hits: 8,
      delaySamples: cm === null ? null : cm / CM_PER_SAMPLE,
    });

  it.each<[PairKindId, number | null, FollowingPlan['toGo']]>([
    ['same-side', -3.4, { code: 'move', moveCm: -3.5 }],
    ['same-side', 3.4, { code: 'move', moveCm: 3.5 }],
    ['same-side', 0.4, { code: 'stop', withinCm: 1 }],
    ['two-overheads', 2, { code: 'stop', withinCm: 3 }],
    ['same-side', null, { code: 'not-known' }],
    // no stand takes that away
    ['top-bottom', 9, { code: 'not-known' }],
    ['close-room', 300, { code: 'not-known' }],
    ['close-room', 3, { code: 'not-known' }],
  ])('%s, %s cm: how far still to go, and no reading', (kind, cm, toGo) => {
    const made = planOf('following', kind, following(cm));
    expect(made.toGo).toEqual(toGo);
    expect([...brief(made), made.sureness.code]).toEqual(['hit-more', null, null, 'provisional']);
  });

  it('is warned of hands and heads, whatever the pair', () => {
    expect(about('same-side', following(3)).cautions).toEqual(['stop-drummer', 'move-warning', 'house-rules']);
    expect(about('close-room', following(3)).cautions).toEqual(['stop-drummer', 'house-rules']);
    expect(about('low-end-driver', following(3)).cautions).toEqual(['stop-drummer', 'phantom', 'house-rules']);
  });
});

describe('a recording that is over', () => {
  it.each<[Partial<Flat>, object]>([
    [
      { reason: 'too-few-hits', hitsPooled: 2 },
      { code: 'too-few-hits', hits: 2, needed: 4 },
    ],
    [
      { reason: 'too-few-hits', hitsPooled: 0 },
      { code: 'no-usable-hit', needed: 4 },
    ],
    [
      { reason: 'too-few-hits', hitsPooled: 5 },
      { code: 'too-few-agree', hits: 5 },
    ],
    [{ reason: 'nothing-yet' }, { code: 'no-hit', needed: 4 }],
    [{ reason: 'moved' }, { code: 'moved', needed: 4 }],
    [{ state: 'following', reason: 'moving', hits: 8, delaySamples: 9 }, { code: 'still-moving' }],
  ])('%o: a fact, no wish for another hit', (fields, reason) => {
    const made = planOf('hit-more', 'other', reading(fields), { ended: true });
    expect(made.reason).toEqual({ ended: true, ...reason });
    expect(made.sureness).toEqual({ code: 'hit-more', reason: made.reason, which: null });
  });

  it('changes nothing else', () => {
    const readings = [
      measured('same', 3),
      measured('same', 0.3, { uncertaintySamples: null }),
      reading({ state: 'unclear', reason: 'hits-disagree', hits: 20 }),
      reading({ state: 'no-signal', reason: 'b-silent' }),
    ];
    for (const r of readings)
      for (const kind of PAIR_KIND_IDS) expect(about(kind, r, { ended: true })).toEqual(about(kind, r));
  });
});

describe('phantom power', () => {
  it('is a caution of the low-end driver in every state', () => {
    const silent = reading({ state: 'no-signal', reason: 'b-silent' });
    expect(about('low-end-driver', silent).cautions).toEqual(['patch', 'phantom', 'house-rules']);
    expect(about('other', silent).cautions).toEqual(['patch', 'house-rules']);
    for (const r of [reading(), measured('same', 100)]) {
      expect(about('low-end-driver', r).cautions).toEqual(['phantom', 'house-rules']);
      expect(about('other', r).cautions).toEqual([]);
    }
  });
});
