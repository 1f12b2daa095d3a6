/** Two that can't be brought together, as a table: situation → action, numbers, codes. The rules are this program's own (README). */
import { describe, expect, it } from 'vitest';
import { PAIR_KIND_IDS } from '../../../src/advice/plan/pairKinds';
import type { Fuller } from '../../../src/reading/codes';
import type { Polarity } from '../../../src/reading/reading';
import { delaySpectrum, measured, sums } from '../readings';
import { brief, known, METRES_PER_SECOND, noted, planOf } from './plans';

describe('a pair that cannot be brought together', () => {
  const fixed = PAIR_KIND_IDS.filter((id) => !['same-side', 'two-overheads', 'top-bottom'].includes(id));
  // polarity of the first push × what the sum prefers
  const TABLE: [Polarity, Fuller | null, string, boolean][] = [
    ['same', 'as-is', 'delay-later', false],
    ['same', 'inverted', 'invert', true],
    ['inverted', 'inverted', 'invert', true],
    // a delay alone would bring opposite pushes together
    ['inverted', 'as-is', 'leave', false],
    ['same', 'either', 'delay-later', false],
    ['inverted', 'either', 'invert', true],
    ['same', null, 'delay-later', false],
    ['inverted', null, 'invert', true],
  ];

  it.each(fixed)('%s: the sum decides the polarity, the arrival where the sum is silent', (kind) => {
    for (const [polarity, fuller, action, flip] of TABLE) {
      const made = planOf('apart', kind, measured(polarity, 100, fuller === null ? {} : sums(fuller)));
      expect([polarity, fuller, made.action, made.recommended.flip]).toEqual([polarity, fuller, action, flip]);
      const decides = fuller === 'as-is' || fuller === 'inverted' ? 'sum' : fuller === null ? 'no-sum' : 'octave-even';
      expect(made.because.code).toBe(decides);
      const opposed = decides === 'sum' && (polarity === 'inverted') !== flip;
      expect(made.conflict?.code ?? null).toBe(opposed ? 'sum-decides' : null);
      // what belongs to the delay, where that isn't what stays until then
      const arrival = polarity === 'inverted' ? 'inverted' : 'as-is';
      expect(made.recommended.delayLater?.listen).toBe(opposed ? arrival : null);
    }
  });

  it('has the band, the dB and the delay to apply later', () => {
    // 1 m at 343.21 m/s is 2.914 ms (check: 1 m / c)
    const made = planOf('apart', 'close-overhead', measured('same', 100, sums('as-is', 4.2)));
    expect(made.recommended).toEqual({
      flip: false,
      press: false,
      moveCm: null,
      delayLater: { delayMs: 2.91, pathCm: 100, listen: null, sumPrefers: null },
    });
    expect(made.because).toEqual({ code: 'sum', vote: { prefers: 'as-is', db: 4.2, lowHz: 60, highHz: 120 } });
    expect(made.distance).toBeNull();
    const early = planOf('apart', 'close-overhead', measured('same', -100, sums('as-is')));
    expect(early.recommended.delayLater).toMatchObject({ delayMs: -2.91, pathCm: -100 });
    const even = planOf('apart', 'close-overhead', measured('same', 100, sums('either')));
    expect(even.because).toEqual({ code: 'octave-even', lowHz: 60, highHz: 120 });
  });

  it.each([
    // 6.7 cm at 343.21 m/s are 0.195 ms
    [6.7, 5, 0.2, 7],
    [6.7, 0.4, 0.2, 6.5],
    [-97.3, 12, -2.8, -97],
    [133, 60, 3.9, 133],
    [24.4, 21, 0.7, 24],
    [-17.6, 3, -0.51, -18],
  ])('%d cm known to %d cm: %d ms, told beside %d cm', (cm, knownCm, delayMs, pathCm) => {
    const made = planOf('apart', 'close-overhead', measured('same', cm, { ...sums('as-is'), ...known(knownCm) }));
    expect(made.recommended.delayLater).toMatchObject({ delayMs, pathCm });
  });

  it('tells where the delay would leave the low end the other way round', () => {
    // the aligned low end is inverted although the first pushes are the same way
    const spectrum = delaySpectrum(1 / METRES_PER_SECOND, 'inverted');
    const made = planOf('apart', 'close-room', measured('same', 100, { ...sums('as-is'), spectrum }));
    expect(made.recommended.delayLater).toMatchObject({ listen: null, sumPrefers: 'inverted' });
    const follows = planOf(
      'apart',
      'close-room',
      measured('same', 100, { ...sums('as-is'), spectrum: delaySpectrum(1 / METRES_PER_SECOND, 'same') }),
    );
    expect(follows.recommended.delayLater?.sumPrefers).toBeNull();
  });

  it('leaves alone what is within the tolerance, and has no delay that repeats or uncertainty drown', () => {
    const near = planOf('apart', 'close-overhead', measured('same', 4, sums('as-is')));
    expect([...brief(near), near.fine, near.distance?.code]).toEqual(['leave', null, null, true, 'equal']);
    for (const [cm, knownCm, repeats] of [
      [40, 60, 0.2],
      [40, 3, 21],
      [1, 8, 0.2],
      [40, null, 0.2],
    ] as const) {
      const unsure = planOf(
        'apart',
        'close-overhead',
        measured('same', cm, { ...sums('as-is'), ...known(knownCm) }, repeats),
      );
      expect([...brief(unsure), unsure.fine]).toEqual(['leave', null, null, false]);
      const better = knownCm === null ? null : expect.closeTo(Math.max(knownCm, repeats), 9);
      expect(unsure.distance).toEqual({ code: 'uncertain', knownCm: better });
    }
  });

  it('are top and bottom farther apart than 6 cm: the drum lies between them', () => {
    const made = planOf('apart', 'top-bottom', measured('inverted', 9, sums('inverted')));
    expect(brief(made)).toEqual(['invert', null, 0.26]);
    expect(noted(made, 'drum-in-the-gap')?.pathCm).toBeCloseTo(9, 9);
  });

  it('asks for both of a stereo pair to be inverted alike', () => {
    for (const kind of fixed) {
      const has = noted(planOf('apart', kind, measured('inverted', 100)), 'invert-both-of-a-pair') !== undefined;
      expect([kind, has]).toEqual([kind, kind === 'close-overhead' || kind === 'close-room']);
    }
    expect(planOf('apart', 'close-room', measured('same', 100)).notes).toEqual([]);
  });
});
