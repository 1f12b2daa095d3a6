import { describe, expect, it } from 'vitest';
import { type Fate, fateHere, fateOf, honestPicture } from '../../../src/advice/plan/hitFates';
import type { HitPicture } from '../../../src/reading/hitPictures';
import { answerOf, type HitReading, type Reading } from '../../../src/reading/reading';
import { hit, picture } from '../hits';
import { measured, reading } from '../readings';

describe('what became of a hit', () => {
  const now = measured('same', 10, { delaySamples: 20, drum: 1, drums: [] });

  it.each<[HitReading, HitPicture | null, Fate]>([
    [hit(1, 'used'), null, { code: 'used' }],
    [hit(1, 'pending'), null, { code: 'pending' }],
    [hit(1, 'used', { drum: 2 }), null, { code: 'other-drum', drum: 2 }],
    [hit(1, 'other-drum', { drum: null }), null, { code: 'other-drum', drum: null }],
    [hit(1, 'clipped'), null, { code: 'clipped', in: null }],
    [hit(1, 'clipped'), picture({ clipped: true }), { code: 'clipped', in: 'a' }],
    [hit(1, 'clipped'), picture({ clipped: true }, { clipped: true }), { code: 'clipped', in: 'both' }],
    [hit(1, 'no-arrival'), picture({}), { code: 'no-clear-push' }],
    [hit(1, 'no-arrival'), picture({}, { noiseBound: true }), { code: 'noisy', in: 'b' }],
    // too quiet to be read says more than noise
    [hit(1, 'no-arrival', { levelADbfs: -84 }), picture({}, { noiseBound: true }), { code: 'quiet', in: 'a' }],
    [hit(1, 'one-side-only'), picture({}, {}, 'a'), { code: 'one-side-only', heardIn: 'a' }],
    [hit(1, 'one-side-only'), null, { code: 'one-side-only', heardIn: null }],
    [hit(1, 'two-drums', { drum: 2 }), null, { code: 'two-drums' }],
    [hit(1, 'too-soon', { drum: null }), null, { code: 'too-soon' }],
    [hit(1, 'too-soon', { drum: 2 }), null, { code: 'too-soon' }],
    [hit(1, 'disagrees', { delaySamples: 20 + 48 }), null, { code: 'disagrees', byMs: 1 }],
    [hit(1, 'disagrees', { delaySamples: 20 - 24 }), null, { code: 'disagrees', byMs: -0.5 }],
    [hit(1, 'disagrees', { polarity: 'inverted' }), null, { code: 'other-polarity' }],
    [hit(1, 'disagrees', { delaySamples: null, polarity: null }), null, { code: 'disagrees', byMs: null }],
  ])('%#: a code with what is known', (one, drawn, fate) => {
    expect(fateOf(one, now, drawn)).toEqual(fate);
  });

  it('used means used by this drum', () => {
    expect(fateHere(hit(1, 'used', { drum: 2 }), now)).toBe('other-drum');
    expect(fateHere(hit(1, 'used'), now)).toBe('used');
    // before drums are known, every hit is this one's
    expect(fateHere(hit(1, 'used', { drum: null }), now)).toBe('used');
  });

  it('a hit that is used is behind an answer, or agrees so far', () => {
    const unclear = reading({ state: 'unclear', reason: 'hits-disagree' });
    expect(fateOf(hit(1, 'used'), unclear, null)).toEqual({ code: 'agrees-so-far' });
    // of whichever drum it is, where none is picked
    const open = reading({ state: 'unclear', reason: 'which-drum', drum: null });
    expect(fateOf(hit(1, 'used', { drum: 2 }), open, null)).toEqual({ code: 'listed-drum', drum: 2 });
    // without an answer there is no delay to be off by
    expect(fateOf(hit(1, 'disagrees'), unclear, null)).toEqual({ code: 'disagrees', byMs: null });
  });

  it('an old hit is too long ago where sixteen newer ones of its drum are all that count', () => {
    const followedBy = (n: number, drum: number): Reading => ({
      ...now,
      perHit: [hit(1, 'old'), ...Array.from({ length: n }, (_, i) => hit(i + 2, 'used', { drum }))],
    });
    expect(fateOf(hit(1, 'old'), followedBy(15, 1), null)).toEqual({ code: 'before-the-move' });
    expect(fateOf(hit(1, 'old'), followedBy(16, 1), null)).toEqual({ code: 'too-long-ago' });
    expect(fateOf(hit(1, 'old'), followedBy(16, 2), null)).toEqual({ code: 'before-the-move' });
  });
});

describe('a microphone that hears the low end only', () => {
  it('has no first push in the pictures', () => {
    const dull = reading({ state: 'unclear', reason: 'lows-only-b', delaySamples: null, polarity: null, drum: 1 });
    const drawn = picture({}, {});
    expect(honestPicture(drawn, answerOf(dull)).b.arrival).toBeNull();
    expect(honestPicture(drawn, answerOf(dull)).a.arrival).toBe(0.25);
    expect(honestPicture(drawn, { reason: 'agreed' })).toBe(drawn);
  });
});
