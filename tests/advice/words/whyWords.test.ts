import { describe, expect, it } from 'vitest';
import { whySentences } from '../../../src/advice/words/whyWords';
import type { Reading } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { hit } from '../hits';
import { CM_PER_SAMPLE, measured, RATE, reading } from '../readings';

const CONTEXT = { kind: 'other', temperatureC: 20, invertB: false } as const;

/** a curve of ±1 at `lag` samples */
function curve(lag: number, sign: number): Reading['curve'] {
  const values = new Float64Array(201);
  values[100 + lag] = sign;
  values[40] = -0.4 * sign;
  return { values, stepSamples: 1, hits: 6 };
}

describe('how an answer came about', () => {
  it('says the landmark, what agrees, the spread, the accuracy, and what the waveforms say', () => {
    const lag = Math.round(10 / CM_PER_SAMPLE);
    const said = whySentences(measured('inverted', 10, { curve: curve(lag, -1) }), CONTEXT);
    expect(said).toEqual([
      'Taken from the first push: when it reaches each mic, and which way it goes.',
      `6 of 6 hits of this drum agree: polarity inverted, B 10 cm later (+${((10 / CM_PER_SAMPLE / RATE) * 1000).toFixed(2)} ms).`,
      'Hit-to-hit spread: ±2 mm.',
      'Accurate to ±4 mm (90 %). That covers the spread of the hits, how far first push and whole attack differ, and differences between the mics.',
      'The waveforms line up best there too, polarity inverted.',
    ]);
  });

  it('does not hide waveforms that say otherwise, or an accuracy that is not known', () => {
    const lag = Math.round(10 / CM_PER_SAMPLE) + 24;
    const said = whySentences(measured('same', 10, { curve: curve(lag, -1), uncertaintySamples: null }), CONTEXT);
    expect(said.at(-1)).toMatch(/line up best \+0\.5\d ms from there, polarity inverted: .* doesn’t count\.$/);
    expect(said.join(' ')).toContain('Accuracy unknown');
    // near, but with the other sign, is no agreement
    const close = whySentences(measured('same', 10, { curve: curve(lag - 24, -1) }), CONTEXT);
    expect(close.at(-1)).toContain('polarity inverted');
  });

  it.each([
    ['waveform', /the whole attack/],
    ['low-band', /first push in the lows/],
  ] as const)('by %s', (method, words) => {
    expect(whySentences(measured('same', 3, { method }), CONTEXT)[0]).toMatch(words);
  });

  it.each<[string, Partial<Flat>, RegExp[]]>([
    [
      'too few hits',
      { reason: 'too-few-hits', hitsPooled: 2, hits: 2 },
      [/^Hit 2 of 4/, /takes 4 hits of one drum that agree; 2 so far/],
    ],
    [
      'hits that disagree',
      { state: 'unclear', reason: 'hits-disagree', hitsPooled: 10, hits: 10, agreement: 0.4 },
      [/don’t agree/, /^4 of 10 hits/],
    ],
    [
      'a buried push',
      { state: 'unclear', reason: 'arrival-hidden', hitsPooled: 8, hits: 8, agreement: 1 },
      [/buried/, /^8 of 8/, /prove nothing/],
    ],
    [
      'first push and attack disagree',
      { state: 'unclear', reason: 'push-and-shape-disagree', hitsPooled: 8, hits: 8, agreement: 1 },
      [/different delays/, /^8 of 8/, /neither is used/],
    ],
    [
      'a move',
      { state: 'following', reason: 'moving', hitsPooled: 6, agreement: 1 },
      [/^A mic is being moved: stop the drummer, move it, step away, then four hits\.$/, /6 of 6/, /newest/],
    ],
    ['silence', { state: 'no-signal', reason: 'b-silent' }, [/^B is silent/]],
  ])('why there is none: %s', (_, fields, words) => {
    const said = whySentences(reading(fields), CONTEXT);
    expect(said.length).toBe(words.length);
    for (const [i, word] of words.entries()) expect(said[i]).toMatch(word);
    // no number is claimed
    expect(said.join(' ')).not.toMatch(/agree: polarity|Accurate to/);
  });

  it('counts what was left out, by reason, most first, and of which hits', () => {
    const perHit = [
      hit(1, 'used'),
      hit(2, 'other-drum', { drum: 2 }),
      hit(3, 'used', { drum: 2 }),
      hit(4, 'clipped'),
      hit(5, 'pending'),
      hit(6, 'two-drums', { drum: 2 }),
    ];
    const said = whySentences(measured('same', 10, { perHit, hits: 6, drum: 1 }), CONTEXT);
    expect(said.at(-1)).toBe('Left out: 2 of another drum, 1 clipped, 1 of two drums at once.');
    const more = whySentences(measured('same', 10, { perHit, hits: 50, drum: 1 }), CONTEXT);
    expect(more.at(-1)).toMatch(/^Left out of the newest 6: /);
    expect(whySentences(measured('same', 10, { perHit: [hit(1, 'used')] }), CONTEXT).join(' ')).not.toContain(
      'Left out',
    );
  });

  it('are sentences: a capital, a full stop, no hole', () => {
    const all: Reading[] = [
      measured('same', -3),
      measured('inverted', 250, { method: null, spreadSamples: null }),
      reading(),
      reading({ state: 'unclear', reason: 'several-drums', hitsPooled: 1, hits: 9 }),
    ];
    for (const one of all) {
      for (const sentence of whySentences(one, CONTEXT)) {
        expect(sentence).toMatch(/^[A-Z0-9].*\.$/);
        expect(sentence).not.toMatch(/null|undefined|NaN|\s\s/);
      }
    }
  });
});

describe('a microphone that hears the low end only', () => {
  it('claims no agreement on an arrival that can’t be read, and counts the hits for the sum', () => {
    const state = { state: 'unclear', hits: 10, hitsPooled: 10, hitsUsed: 10, agreement: 1 } as const;
    for (const reason of ['lows-only-a', 'lows-only-b'] as const) {
      const said = whySentences(reading({ ...state, reason }), CONTEXT);
      expect(said.join(' ')).not.toMatch(/\d agree|each other/);
      expect(said[1]).toBe('10 hits of one drum count for the sum only: no first push to compare, so no delay.');
    }
    const one = reading({ ...state, reason: 'lows-only-b', hits: 1, hitsPooled: 1, hitsUsed: 1 });
    expect(whySentences(one, CONTEXT)[1]).toMatch(/^1 hit of one drum counts for the sum only: /);
  });
});
