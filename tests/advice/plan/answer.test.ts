/** The plan of a reading that answers, as a table: situation → whole alternatives, what is recommended, how well all is known. */
import { describe, expect, it } from 'vitest';
import { PAIR_KIND_IDS, type PairKindId } from '../../../src/advice/plan/pairKinds';
import type { AnswerPlan, PlanContext } from '../../../src/advice/plan/planTypes';
import type { DrumReading, Polarity, Reading } from '../../../src/reading/reading';
import { changed } from '../../support/readings/flat';
import { CM_PER_SAMPLE, drum, measured, NO_SUM, sumOf, turnedOver } from '../readings';
import { about, brief, known, noted, planOf } from './plans';

const answer = (kind: PairKindId, r: Reading, more: Partial<PlanContext> = {}): AnswerPlan =>
  planOf('answer', kind, r, more);

describe('what is recommended', () => {
  it.each<[PairKindId, Polarity, number, string, number | null]>([
    ['same-side', 'same', 0.3, 'leave', null],
    ['same-side', 'same', 0.9, 'leave', null],
    ['same-side', 'same', 3.2, 'move', 3],
    ['same-side', 'same', -4, 'move', -4],
    ['same-side', 'same', 14.4, 'move', 14],
    ['same-side', 'same', 29, 'move', 29],
    ['same-side', 'inverted', 0.3, 'invert', null],
    ['same-side', 'inverted', -3.2, 'invert-and-move', -3],
    ['two-overheads', 'same', 2.8, 'leave', null],
    ['two-overheads', 'same', 12.6, 'move', 13],
    ['two-overheads', 'inverted', 12.6, 'invert-and-move', 13],
    ['top-bottom', 'inverted', 0.5, 'invert', null],
    ['top-bottom', 'inverted', 4.1, 'invert-and-move', 4],
    ['top-bottom', 'same', 5.9, 'move', 6],
    ['top-bottom', 'same', -5.9, 'move', -6],
  ])('%s, %s, B %d cm late: %s %s', (kind, polarity, cm, action, moveCm) => {
    const made = answer(kind, measured(polarity, cm));
    expect(brief(made)).toEqual([action, moveCm, null]);
    expect(made.gap).toMatchObject({ polarity, pathCm: expect.closeTo(cm, 9) });
    // a move says the distance
    expect(made.distance?.code ?? null).toBe(moveCm === null ? 'equal' : null);
    // an unusual polarity sends somebody to the cables
    const patch = noted(made, 'unusual-polarity') === undefined ? [] : ['patch'];
    const mind = [...patch, ...(moveCm === null ? [] : ['stop-drummer', 'move-warning'])];
    expect(made.cautions).toEqual(mind.length === 0 ? [] : [...mind, 'house-rules']);
  });

  const fixed = PAIR_KIND_IDS.filter((id) => !['same-side', 'two-overheads', 'top-bottom'].includes(id));
  it.each(fixed)('%s: the delay of the arrival, with the polarity that adds up then', (kind) => {
    // 100 cm at 343.21 m/s: 2.91 ms; the octave of 100 Hz is a third of a wave late and cancels in part
    expect(brief(answer(kind, measured('same', 100)))).toEqual(['delay-later', null, 2.91]);
    expect(brief(answer(kind, measured('same', -100)))).toEqual(['delay-later', null, -2.91]);
    expect(brief(answer(kind, measured('inverted', 100)))).toEqual(['invert-and-delay', null, 2.91]);
    expect(brief(answer(kind, measured('inverted', 0.2)))).toEqual(['invert', null, null]);
  });

  it('a switch alone where it gains as much as switch and delay', () => {
    // all that is common lies below: half a wave late there, and no more to gain by a delay
    const late = 100 / CM_PER_SAMPLE;
    const body = sumOf({ polarity: 'inverted', delaySamples: 0, nearSamples: late, energies: [1, 0, 0, 0] });
    expect(brief(answer('close-overhead', measured('same', 100, body)))).toEqual(['invert', null, null]);
  });

  it('nothing where nothing is known of the sum, whatever the arrival says', () => {
    for (const polarity of ['same', 'inverted'] as const) {
      const made = answer('other', measured(polarity, 100, NO_SUM));
      expect(brief(made)).toEqual(['leave', null, null]);
      expect([made.recommended.lowDb, made.recommended.allDb, made.lowOctaveHz]).toEqual([0, 0, null]);
    }
  });

  it('is the first of the list, and every other one is in it once', () => {
    for (const kind of PAIR_KIND_IDS) {
      const made = answer(kind, measured('inverted', 5));
      expect(made.alternatives[0]).toBe(made.recommended);
      expect(new Set(made.alternatives).size).toBe(made.alternatives.length);
      const actions = made.alternatives.map(({ invertB, delayMs, moveCm }) => `${invertB} ${delayMs} ${moveCm}`);
      expect(new Set(actions).size).toBe(actions.length);
      expect(actions).toContain('false null null');
      expect(actions).toContain('true null null');
    }
  });

  it('what stood stays, and what a person chose is done; the note names what would be recommended', () => {
    const r = measured('same', 100);
    const delay = { invertB: false, delayMs: 2.9, moveCm: null };
    expect(brief(answer('close-overhead', r, { standing: { ...delay, fine: false } }))[2]).toBe(2.9);
    const leave = { invertB: false, delayMs: null, moveCm: null };
    const made = answer('close-overhead', r, { chosen: leave });
    expect([made.action, made.chosen]).toEqual(['leave', true]);
    expect(noted(made, 'recommended-otherwise')?.action).toMatchObject({ delayMs: 2.91 });
    const same = answer('close-overhead', r, { chosen: { ...leave, delayMs: 2.91 } });
    expect([same.chosen, noted(same, 'recommended-otherwise')]).toEqual([true, undefined]);
    // what is no longer among the alternatives is not chosen
    expect(answer('close-overhead', r, { chosen: { ...leave, moveCm: 5 } }).chosen).toBe(false);
  });
});

describe('fine', () => {
  it('is where nothing is to be done and nothing contradicts that', () => {
    expect(answer('same-side', measured('same', 0.3)).fine).toBe(true);
    expect(answer('same-side', measured('same', 0.3, NO_SUM)).fine).toBe(true);
    expect(answer('same-side', measured('same', 0.3, known(1.2))).fine).toBe(false);
    expect(answer('same-side', measured('same', 0.3, known(null))).fine).toBe(false);
    expect(answer('same-side', measured('inverted', 0.3)).fine).toBe(false);
    expect(answer('same-side', measured('inverted', 0.3, NO_SUM)).fine).toBe(false);
    expect(answer('other', measured('same', 4)).fine).toBe(false);
    // the sum says the opposite of the first push, though not worth inverting over all
    const torn = sumOf({ polarity: 'inverted', delaySamples: 0, all: false });
    expect(answer('same-side', measured('same', 0.3, torn)).fine).toBe(false);
    // the meter's own invert is still to be taken off
    expect(answer('same-side', turnedOver(measured('inverted', 0.3)), { invertB: true }).fine).toBe(false);
  });

  it('stays up to one and a half times the tolerance, known to three times', () => {
    const stood = { standing: { invertB: false, delayMs: null, moveCm: null, fine: true } };
    const fine = (cm: number, knownCm: number, more = {}): boolean =>
      answer('other', measured('same', cm, known(knownCm)), more).fine;
    expect([fine(2.9, 2.9), fine(3.1, 1), fine(1, 3.1)]).toEqual([true, false, false]);
    expect([fine(4.4, 1, stood), fine(1, 8.9, stood)]).toEqual([true, true]);
    expect([fine(4.6, 1, stood), fine(1, 9.1, stood)]).toEqual([false, false]);
  });
});

describe('how well the distance is known', () => {
  it.each<[PairKindId, Polarity, number, number | null, number, AnswerPlan['distance']]>([
    // within the tolerance, and known that well: 1.9 of 2 cm
    ['top-bottom', 'same', 0.3, 1.9, 0.2, { code: 'equal', withinCm: expect.closeTo(1.9, 9) }],
    ['top-bottom', 'same', 0.3, 10.2, 0.2, { code: 'uncertain', knownCm: expect.closeTo(10.2, 9) }],
    ['top-bottom', 'same', 0.3, null, 0.2, { code: 'uncertain', knownCm: null }],
    // less than twice the spread; one whose direction isn't known; one without an accuracy
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
      'same',
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
  ])('%s, %s, %d cm, known to %s cm, spread %d cm: no move', (kind, polarity, cm, knownCm, repeats, distance) => {
    const made = answer(kind, measured(polarity, cm, known(knownCm), repeats));
    expect(made.recommended.moveCm).toBeNull();
    expect(made.distance).toEqual(distance);
  });

  it('is no reason against a move that simply isn’t worth it', () => {
    const little = sumOf({ polarity: 'same', delaySamples: 10 / CM_PER_SAMPLE, common: 0.05 });
    const made = answer('same-side', measured('same', 10, little));
    expect([made.action, made.distance]).toEqual(['leave', null]);
    expect(made.alternatives.some(({ moveCm }) => moveCm === 10)).toBe(true);
  });

  it('is kept as agreement, spread and accuracy, each by itself, and of which drum', () => {
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
    const two = { drum: 2, drums: [drum(1), drum(2)] };
    expect(about('other', measured('same', 3, two)).sureness).toMatchObject({ which: { code: 'picked' } });
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
    const made = answer('two-overheads', kit(path, [drum(id, { delaySamples: cm(nowCm) })]));
    expect(made.notes).toEqual([
      { code: 'equal-for-one-drum' },
      { code: 'other-drum-changes', drum: id, moveCm: path, nowCm, thenCm },
      { code: 'move-changes-sound' },
    ]);
    expect(made.forDrum).toBe(1);
  });

  it('has no number for a drum without an answer, and none without a move', () => {
    const listening = drum(2, { state: 'listening', reason: 'too-few-hits', delaySamples: cm(-46) });
    const unread = drum(2, { state: 'unclear', reason: 'hits-disagree', delaySamples: null });
    for (const other of [listening, unread]) {
      const made = answer('two-overheads', kit(24, [other]));
      expect([noted(made, 'other-drum-changes'), made.forDrum]).toEqual([undefined, 1]);
    }
    const still = answer('two-overheads', kit(1, [drum(2)]));
    expect([still.forDrum, noted(still, 'equal-for-one-drum')]).toEqual([null, undefined]);
    expect(answer('two-overheads', kit(24, [])).forDrum).toBeNull();
    const close = answer('same-side', kit(24, [drum(2)]));
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
    expect(made.cautions).toEqual(['patch', 'house-rules']);
    expect(made.sureness.code).toBe('agreed');
  });
});
