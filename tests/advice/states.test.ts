/** Advice beside and without an arrival: what is unusual, what is missing, a recording that is over, cautions. */

import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise } from '../../src/advice/advise';
import { PAIR_KIND_IDS, type PairKindId } from '../../src/advice/plan/pairKinds';
import { lowEndOnly } from '../../src/advice/plan/reasons';
import { reasonSentence } from '../../src/advice/words/reasonWords';
import type { Polarity, Reading } from '../../src/reading/reading';
import { answerOf } from '../../src/reading/reading';
import type { Flat } from '../support/readings/flat';
import { CM_PER_SAMPLE, measured, reading, sums } from './readings';

function about(kind: PairKindId, r: Reading, more: Partial<AdviceContext> = {}): Advice {
  return advise(r, { kind, temperatureC: 20, invertB: false, ...more });
}
const brief = (a: Advice): [string, number | null, number | null] => [a.action, a.moveCm, a.delayLaterMs];

describe('what is usual', () => {
  const unusual = (kind: PairKindId, polarity: Polarity, invertB = false): boolean =>
    about(kind, measured(polarity, 0.2), { invertB }).notes.some((note) => note.startsWith('Unusual here'));

  it.each<[PairKindId, Polarity, boolean]>([
    ['same-side', 'inverted', true],
    ['same-side', 'same', false],
    ['top-bottom', 'same', true],
    ['top-bottom', 'inverted', false],
    ['both-sides-kick', 'same', true],
    ['inside-outside', 'inverted', true],
    ['close-room', 'inverted', false],
    ['other', 'inverted', false],
  ])('%s, %s: unusual %s', (kind, polarity, expected) => {
    expect(unusual(kind, polarity)).toBe(expected);
  });

  it('is a matter of the wiring, not of the meter’s invert', () => {
    expect(unusual('top-bottom', 'same', true)).toBe(false);
    expect(unusual('top-bottom', 'inverted', true)).toBe(true);
  });

  it('counts a switch that is known to be pressed, and doesn’t ask for one then', () => {
    const notes = (polarity: Polarity, switched: boolean): string[] =>
      about('top-bottom', measured(polarity, 0.2), { switched }).notes.filter((note) => note.startsWith('Unusual'));
    expect(notes('same', true)).toEqual([]);
    expect(notes('inverted', false)).toEqual([]);
    expect(notes('inverted', true)[0]).toMatch(/^Unusual here: /);
    expect(notes('same', false)[0]).toMatch(/^Unusual here: /);
  });
});

describe('without an arrival', () => {
  it('never claims a polarity, and gives the sum where there is one', () => {
    const a = about('other', reading({ state: 'unclear', reason: 'hits-disagree', hits: 8, ...sums('inverted', 3.6) }));
    expect(a.action).toBe('cannot-tell');
    expect(a.text).toMatch(/^Can't tell the arrival, because the hits don't agree on one delay; /);
    expect(a.text).toMatch(
      /The sum still answers: the drum's own low octave \(60–120 Hz\) is 3\.5 dB fuller with B inverted\.$/,
    );
    expect(a.text).not.toMatch(/first push is/);
    expect(a.callOut).toBe("Can't tell the arrival; fuller with B inverted");
  });

  it('says that no answer will come, and why', () => {
    const a = about('other', reading({ state: 'unclear', reason: 'no-common-signal', hits: 20 }));
    expect(a.text).toMatch(
      /^No answer will come from this pair as it stands, because A and B have nothing in common; /,
    );
    const low = reading({ state: 'unclear', reason: 'low-end-only-b', hits: 6, ...sums('inverted') });
    expect(about('low-end-driver', low).action).toBe('cannot-tell');
    // few hits or many, with either microphone: the pictures and the advice go by one bound
    for (const reason of ['low-end-only-a', 'low-end-only-b', 'hits-disagree'] as const) {
      const few = reading({ state: 'unclear', reason, hits: 5 });
      expect(about('other', few).text.startsWith('No answer will come')).toBe(lowEndOnly(answerOf(few)) !== null);
    }
    expect(about('low-end-driver', low).text).toMatch(/^No arrival will come .* fuller with B inverted\.$/);
  });

  it.each<[Partial<Flat>, string, RegExp]>([
    [{ state: 'no-signal', reason: 'a-silent' }, 'fix-input', /^A is silent: check its cable/],
    [{ state: 'same-signal', reason: 'gain-copy' }, 'fix-input', /^A and B carry one signal/],
    [{ state: 'same-signal', reason: 'bit-identical' }, 'fix-input', /sample for sample the same/],
    [{ state: 'overloaded', reason: 'clipped-b' }, 'fix-input', /turn B's gain down/],
    [{ state: 'listening', reason: 'nothing-yet' }, 'hit-more', /^No hit has been heard yet/],
    [{ state: 'listening', reason: 'too-few-hits', hitsPooled: 2 }, 'hit-more', /^Hit 2 of 4/],
    [{ state: 'unclear', reason: 'moved' }, 'hit-more', /keep striking/],
  ])('%o: %s', (fields, action, text) => {
    const a = about('other', reading(fields));
    expect(a.action).toBe(action);
    expect(a.text).toMatch(text);
  });

  it('tells a moving hand how far is still to go, without calling it a reading', () => {
    const following = (cm: number): Reading =>
      reading({ state: 'following', reason: 'moving', hits: 8, delaySamples: cm / CM_PER_SAMPLE, spreadSamples: 0.2 });
    const a = about('same-side', following(-3.4));
    expect(brief(a)).toEqual(['hit-more', null, null]);
    expect(a.text).toMatch(/about 3\.5 cm to go, B back from the drum, or A closer; .* provisional/);
    expect(a.callOut).toBe('B back, 3.5 centimetres or so to go');
    expect(about('same-side', following(0.4)).callOut).toBe('Stop there, keep hitting');
    expect(about('close-room', following(300)).text).not.toMatch(/to go/);
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
    expect(moving.text).toMatch(/^A microphone was still on the move when this recording ended/);
    for (const a of [moving, over({ reason: 'too-few-hits' }), over({ reason: 'nothing-yet' })]) {
      expect(`${a.text} ${a.callOut} ${a.sureness}`).not.toMatch(/keep|yet/i);
    }
    // where the accuracy isn't known, no later hit will tell
    for (const kind of PAIR_KIND_IDS) {
      const unknown = measured('same', 0.3, { uncertaintySamples: null });
      const [a, live] = [about(kind, unknown, { ended: true }), about(kind, unknown)];
      expect(`${live.text} ${live.sureness}`).toMatch(/isn't known yet.*not known yet/);
      expect(`${a.text} ${a.sureness}`).toMatch(/isn't known[ ,.].*accuracy not known/);
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
