/** Two that can be brought together, as a table: situation → action, numbers, codes. The rules are this program's own (README). */
import { describe, expect, it } from 'vitest';
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import type { TogetherPlan } from '../../../src/advice/plan/planTypes';
import type { DrumReading, Polarity, Reading } from '../../../src/reading/reading';
import { changed } from '../../support/readings/flat';
import { bands, CM_PER_SAMPLE, delaySpectrum, drum, measured, sums } from '../readings';
import { about, brief, known, METRES_PER_SECOND, noted, planOf } from './plans';

describe('a pair that can be brought together', () => {
  it.each<[PairKindId, Polarity, number, string, number | null]>([
    ['same-side', 'same', 0.3, 'leave', null],
    ['same-side', 'same', 0.9, 'leave', null],
    ['same-side', 'same', 1.1, 'move', 1],
    ['same-side', 'same', 3.2, 'move', 3],
    ['same-side', 'same', 3.3, 'move', 3.5],
    ['same-side', 'same', -4, 'move', -4],
    ['same-side', 'same', 14.4, 'move', 14],
    ['same-side', 'same', 29, 'move', 29],
    ['same-side', 'inverted', 0.3, 'invert', null],
    ['same-side', 'inverted', -3.2, 'invert-and-move', -3],
    ['two-overheads', 'same', 2.8, 'leave', null],
    ['two-overheads', 'same', 12.6, 'move', 13],
    ['two-overheads', 'same', 95, 'move', 95],
    ['two-overheads', 'inverted', 12.6, 'invert-and-move', 13],
    ['top-bottom', 'inverted', 1.5, 'invert', null],
    ['top-bottom', 'inverted', 4.1, 'invert-and-move', 4],
    ['top-bottom', 'same', 5.9, 'move', 6],
    ['top-bottom', 'same', -5.9, 'move', -6],
  ])('%s, %s, B %d cm late: %s %s', (kind, polarity, cm, action, moveCm) => {
    const made = planOf('together', kind, measured(polarity, cm));
    expect(brief(made)).toEqual([action, moveCm, null]);
    const flip = polarity === 'inverted';
    expect(made.recommended).toEqual({ flip, press: flip, moveCm, delayLater: null });
    expect(made.gap).toMatchObject({ polarity, pathCm: expect.closeTo(cm, 9), repeatsCm: expect.closeTo(0.2, 9) });
    // a move says the distance
    expect(made.distance?.code ?? null).toBe(moveCm === null ? 'equal' : null);
    expect(made.cautions).toEqual(moveCm === null ? [] : ['stop-drummer', 'move-warning', 'house-rules']);
  });

  it('is fine where nothing is to be done and nothing contradicts that', () => {
    expect(planOf('together', 'same-side', measured('same', 0.3)).fine).toBe(true);
    expect(planOf('together', 'same-side', measured('same', 0.3, sums('as-is'))).fine).toBe(true);
    expect(planOf('together', 'same-side', measured('same', 0.3, sums('inverted'))).fine).toBe(false);
    expect(planOf('together', 'same-side', measured('same', 0.3, { bands: bands({ mid: -3 }) })).fine).toBe(false);
    expect(planOf('together', 'same-side', measured('same', 0.3, known(1.2))).fine).toBe(false);
    expect(planOf('together', 'same-side', measured('inverted', 0.3)).fine).toBe(false);
    // the meter's own invert is still to be taken off
    expect(planOf('together', 'same-side', measured('same', 0.3), { invertB: true }).fine).toBe(false);
  });

  it.each<[PairKindId, Polarity, number, number | null, number, TogetherPlan['distance']]>([
    // within the tolerance, and known that well: 1.9 of 2 cm
    ['top-bottom', 'same', 0.3, 1.9, 0.2, { code: 'equal', withinCm: expect.closeTo(1.9, 9) }],
    ['top-bottom', 'same', 0.3, 10.2, 0.2, { code: 'uncertain', knownCm: expect.closeTo(10.2, 9) }],
    ['top-bottom', 'inverted', 0.3, 10.2, 0.2, { code: 'uncertain', knownCm: expect.closeTo(10.2, 9) }],
    ['top-bottom', 'same', 0.3, null, 0.2, { code: 'uncertain', knownCm: null }],
    // less than twice the repeats; then one whose direction isn't known; then without an accuracy
    [
      'same-side',
      'same',
      3,
      0.4,
      1.6,
      { code: 'too-uncertain-to-move', pathCm: 3, knownCm: expect.closeTo(1.6, 9), repeatsCm: expect.closeTo(1.6, 9) },
    ],
    [
      'same-side',
      'inverted',
      -3,
      4,
      0.2,
      { code: 'too-uncertain-to-move', pathCm: -3, knownCm: expect.closeTo(4, 9), repeatsCm: expect.closeTo(0.2, 9) },
    ],
    [
      'same-side',
      'same',
      3,
      null,
      0.2,
      { code: 'too-uncertain-to-move', pathCm: 3, knownCm: null, repeatsCm: expect.closeTo(0.2, 9) },
    ],
  ])(
    '%s, %s, %d cm, known to %s cm, repeating within %d cm: no move',
    (kind, polarity, cm, knownCm, repeats, distance) => {
      const made = planOf('together', kind, measured(polarity, cm, known(knownCm), repeats));
      expect(brief(made)).toEqual([polarity === 'inverted' ? 'invert' : 'leave', null, null]);
      expect(made.distance).toEqual(distance);
    },
  );

  it.each([
    [7.3, 0.4, 7.5],
    [7.3, 1.2, 7],
    [7.3, 2.4, 8],
    [17.3, 5.4, 15],
  ])('%d cm known to %d cm is a move of %d cm: no finer than is known', (cm, knownCm, moveCm) => {
    expect(planOf('together', 'same-side', measured('same', cm, known(knownCm))).recommended.moveCm).toBe(moveCm);
  });

  it('goes by the arrival where the sum says the opposite, and keeps what the move will change', () => {
    const late = 3 / METRES_PER_SECOND / 100;
    const vote = { prefers: 'as-is', db: 4, lowHz: 60, highHz: 120 };
    const ideal = measured('inverted', 3, { ...sums('as-is'), spectrum: delaySpectrum(late, 'inverted') });
    const changes = planOf('together', 'same-side', ideal);
    expect(brief(changes)).toEqual(['invert-and-move', 3, null]);
    expect(changes.conflict).toMatchObject({
      code: 'changes-after-move',
      vote,
      after: { prefers: 'inverted', lowHz: 60 },
    });
    expect(changes.notes[0]).toEqual({
      code: 'arrival-and-sum-disagree',
      polarity: 'inverted',
      conflict: changes.conflict,
    });
    const stays = planOf('together', 'same-side', changed(ideal, { spectrum: delaySpectrum(late, 'same') }));
    expect(stays.conflict).toMatchObject({ code: 'stays-after-move', vote, after: { prefers: 'as-is' } });
    // no coherency at all: nothing can be told
    const unknown = planOf('together', 'same-side', measured('inverted', 3, sums('as-is')));
    expect(unknown.conflict).toEqual({ code: 'unknown-after-move', vote });
    const still = planOf('together', 'same-side', measured('same', 0.2, sums('inverted')));
    expect(still.conflict).toMatchObject({ code: 'no-move', vote: { prefers: 'inverted' } });
    expect(brief(still)).toEqual(['leave', null, null]);
    expect(planOf('together', 'same-side', measured('same', 3, sums('as-is'))).conflict).toBeNull();
  });

  it('notes a sum that agrees now and will not after the move', () => {
    const r = measured('same', 3, {
      ...sums('as-is'),
      spectrum: delaySpectrum(3 / METRES_PER_SECOND / 100, 'inverted'),
    });
    const made = planOf('together', 'same-side', r);
    expect(made.conflict).toBeNull();
    expect(made.notes).toEqual([{ code: 'sum-opposite-after-move', prefers: 'inverted' }]);
  });

  it('keeps how sure it is: agreement, repeats and uncertainty, each by itself', () => {
    const r = measured('same', 3, { agreement: 5 / 6, uncertaintySamples: 1.2 / CM_PER_SAMPLE }, 0.4);
    expect(about('same-side', r).sureness).toEqual({
      code: 'agreed',
      agreeing: { agree: 5, of: 6, moreHeard: false },
      withinCm: expect.closeTo(0.4, 9),
      trueToCm: expect.closeTo(1.2, 9),
      which: null,
    });
    const { sureness } = about('same-side', changed(r, { uncertaintySamples: null, spreadSamples: null }));
    expect(sureness).toMatchObject({ code: 'agreed', withinCm: null, trueToCm: null });
  });

  it('keeps which of several drums it is of', () => {
    const two = { drum: 2, drums: [drum(1), drum(2)] };
    expect(about('other', measured('same', 3, two)).sureness).toMatchObject({ which: { code: 'loudest-in-a' } });
    const chosen = about('other', measured('same', 3, { ...two, drumChosen: true }));
    expect(chosen.sureness).toMatchObject({ which: { code: 'chosen', drum: 2 } });
  });
});

describe('a move of two overheads', () => {
  const cm = (path: number): number => path / CM_PER_SAMPLE;
  const kit = (path: number, others: DrumReading[]): Reading =>
    measured('same', path, { drum: 1, drums: [drum(1, { delaySamples: cm(path) }), ...others] });

  it.each([
    [24, 2, -46, -70],
    [-24, 3, -46, -22],
    [24, 2, 10, -14],
  ])('of %d cm takes drum %d from %d cm to %d cm', (path, id, nowCm, thenCm) => {
    const made = planOf('together', 'two-overheads', kit(path, [drum(id, { delaySamples: cm(nowCm) })]));
    expect(made.notes.slice(-2)).toEqual([
      { code: 'equal-for-one-drum' },
      { code: 'other-drum-changes', drum: id, moveCm: path, nowCm, thenCm },
    ]);
    expect(made.forDrum).toBe(1);
  });

  it('has no number for a drum without an answer, and none without a move', () => {
    const listening = drum(2, { state: 'listening', reason: 'too-few-hits', delaySamples: cm(-46) });
    const unread = drum(2, { state: 'unclear', reason: 'hits-disagree', delaySamples: null });
    for (const other of [listening, unread]) {
      const made = planOf('together', 'two-overheads', kit(24, [other]));
      expect([made.notes.at(-1)?.code, made.forDrum]).toEqual(['equal-for-one-drum', 1]);
    }
    const still = planOf('together', 'two-overheads', kit(1, [drum(2)]));
    expect([still.forDrum, noted(still, 'equal-for-one-drum')]).toEqual([null, undefined]);
    expect(planOf('together', 'two-overheads', kit(24, [])).forDrum).toBeNull();
    const close = planOf('together', 'same-side', kit(24, [drum(2)]));
    expect([close.forDrum, noted(close, 'other-drum-changes')]).toEqual([null, undefined]);
  });
});

describe('a gap that such a pair hardly has', () => {
  it.each<[PairKindId, Polarity, number]>([
    ['same-side', 'inverted', -95],
    ['same-side', 'same', 31],
    ['two-overheads', 'same', 105],
  ])('%s, %s, %d cm: nothing is advised', (kind, polarity, pathCm) => {
    const made = planOf('far', kind, measured(polarity, pathCm));
    expect(brief(made)).toEqual(['cannot-tell', null, null]);
    expect(made.pathCm).toBe(pathCm);
    expect(made.notes).toEqual([{ code: 'what-was-read', pathCm, polarity }]);
    expect(made.cautions).toEqual([]);
    expect(made.sureness.code).toBe('agreed');
  });
});
