import { describe, expect, it } from 'vitest';
import { fateText } from '../../../src/advice/words/hitFateWords';
import type { HitPicture } from '../../../src/reading/hitPictures';
import type { HitReading, Reading } from '../../../src/reading/reading';
import { hit, picture } from '../hits';
import { measured, reading } from '../readings';

describe('what became of a hit', () => {
  const now = measured('same', 10, { delaySamples: 20, drum: 1, drums: [] });
  it.each<[string, HitReading, HitPicture | null]>([
    ['used', hit(1, 'used'), null],
    ['being measured', hit(1, 'pending'), null],
    ['another drum (2)', hit(1, 'used', { drum: 2 }), null],
    ['another drum', hit(1, 'other-drum', { drum: null }), null],
    ['clipped', hit(1, 'clipped'), null],
    ['clipped in A', hit(1, 'clipped'), picture({ clipped: true })],
    ['clipped in A and B', hit(1, 'clipped'), picture({ clipped: true }, { clipped: true })],
    ['no clear first push', hit(1, 'no-arrival'), picture({})],
    ['first push buried in noise in B', hit(1, 'no-arrival'), picture({}, { noiseBound: true })],
    ['only A heard it', hit(1, 'one-side-only'), picture({}, {}, 'a')],
    ['in one mic only', hit(1, 'one-side-only'), null],
    ['quiet in B', hit(1, 'no-arrival', { levelBDbfs: -84 }), picture({}, { arrival: null, push: 0 })],
    ['two drums at once', hit(1, 'two-drums', { drum: 2 }), null],
    ['too soon after the last', hit(1, 'too-soon', { drum: null }), null],
    ['delay off by +0.31 ms', hit(1, 'disagrees', { delaySamples: 20 + 0.31 * 48 }), null],
    ['opposite polarity', hit(1, 'disagrees', { polarity: 'inverted' }), null],
    ['doesn’t match the others', hit(1, 'disagrees', { delaySamples: null, polarity: null }), null],
  ])('%s', (text, one, pic) => {
    expect(fateText(one, now, pic)).toBe(text);
  });

  it('behind no answer nothing is used', () => {
    expect(fateText(hit(1, 'used'), reading({ state: 'unclear', reason: 'hits-disagree' }), null)).toBe(
      'agrees so far',
    );
  });

  it('old is before the move, or too long ago: sixteen newer hits of its drum are all that count', () => {
    const followedBy = (n: number): Reading => ({
      ...now,
      perHit: [hit(1, 'old'), ...Array.from({ length: n }, (_, i) => hit(i + 2, 'used'))],
    });
    expect(fateText(hit(1, 'old'), followedBy(5), null)).toBe('before the move');
    expect(fateText(hit(1, 'old'), followedBy(16), null)).toBe('too long ago');
  });
});

describe('a microphone that hears the low end only', () => {
  it('has hits that count for the sum only', () => {
    const dull = reading({ state: 'unclear', reason: 'lows-only-b', delaySamples: null, polarity: null, drum: 1 });
    expect(fateText(hit(1, 'used'), dull, picture({}, {}))).toBe('used for the sum only');
  });
});
