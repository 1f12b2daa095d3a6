/** Properties of the advice over every reading that can be made up. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise } from '../../src/advice/advise';
import { PAIR_KIND_IDS, pairKind } from '../../src/advice/plan/pairKinds';
import { kindWords } from '../../src/advice/words/pairKindWords';
import { reasonSentence } from '../../src/advice/words/reasonWords';
import { type Fuller, REASONS, STATES } from '../../src/reading/codes';
import type { Polarity } from '../../src/reading/reading';
import { answerOf } from '../../src/reading/reading';
import { type Flat, flat } from '../support/readings/flat';
import { CM_PER_SAMPLE, measured, NO_SUM, reading, sumOf, swappedOver, turnedOver } from './readings';

/** a made-up sum takes a few milliseconds */
const RUNS = 600;
const polarity = fc.constantFrom<Polarity>('same', 'inverted');
const arrival = fc
  .record({
    polarity,
    cm: fc.oneof(fc.double({ min: -8, max: 8, noNaN: true }), fc.double({ min: -400, max: 400, noNaN: true })),
    repeatsCm: fc.double({ min: 0, max: 12, noNaN: true }),
    uncertaintyCm: fc.option(fc.double({ min: 0, max: 30, noNaN: true })),
    /** the bodies of the sounds, beside the first push */
    body: polarity,
    offCm: fc.double({ min: -30, max: 30, noNaN: true }),
    common: fc.double({ min: 0, max: 1, noNaN: true }),
    lowHz: fc.constantFrom(null, 44, 88, 177, 354),
    all: fc.boolean(),
    sum: fc.boolean(),
  })
  .map((x) => {
    const nearSamples = x.cm / CM_PER_SAMPLE;
    const { body, common, lowHz, all } = x;
    const delaySamples = (x.cm + x.offCm) / CM_PER_SAMPLE;
    const fields: Partial<Flat> = {
      ...(x.sum ? sumOf({ polarity: body, delaySamples, common, lowHz, all, nearSamples }) : NO_SUM),
      uncertaintySamples: x.uncertaintyCm === null ? null : x.uncertaintyCm / CM_PER_SAMPLE,
    };
    return measured(x.polarity, x.cm, fields, x.repeatsCm);
  });
const context = fc.record({
  kind: fc.constantFrom(...PAIR_KIND_IDS),
  temperatureC: fc.double({ min: -20, max: 50, noNaN: true }),
  invertB: fc.boolean(),
});
const anything = fc
  .record({
    state: fc.constantFrom(...STATES),
    reason: fc.constantFrom(...REASONS),
    hits: fc.nat({ max: 40 }),
    hitsPooled: fc.nat({ max: 16 }),
    hitsUsed: fc.nat({ max: 16 }),
    agreement: fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
    delaySamples: fc.option(fc.double({ min: -1600, max: 1600 })),
    spreadSamples: fc.option(fc.double({ min: 0, max: 100, noNaN: true })),
    uncertaintySamples: fc.option(fc.double({ min: 0, max: 100, noNaN: true })),
    polarity: fc.option(polarity),
    fuller: fc.constantFrom<Fuller | null>('as-is', 'inverted', 'either', null),
    fullerDb: fc.option(fc.double({ min: 0, max: 30, noNaN: true })),
    fullerLowHz: fc.option(fc.constantFrom(44, 88, 177)),
    fullerHighHz: fc.option(fc.constantFrom(354, 707)),
  })
  // an arrival has a polarity and a delay
  .map((fields) =>
    reading(
      fields.state === 'measured'
        ? { ...fields, polarity: fields.polarity ?? 'same', delaySamples: fields.delaySamples ?? 20 }
        : fields,
    ),
  );

const said = (a: Advice): string => [a.text, a.callOut, a.sureness, ...a.notes, ...a.cautions].join('\n');

describe('advice, whatever is read', () => {
  it('moves only what may be moved, and never less than twice the repeats', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const { moveCm, action } = advise(r, c);
        expect(action === 'move' || action === 'invert-and-move').toBe(moveCm !== null);
        if (moveCm === null) return;
        const kind = pairKind(c.kind);
        expect(kind.movable).toBe(true);
        if (kind.movableUpToCm !== null) expect(Math.abs(moveCm)).toBeLessThanOrEqual(kind.movableUpToCm);
        const cmPerSample = CM_PER_SAMPLE * Math.sqrt((c.temperatureC + 273.15) / 293.15);
        expect(Math.abs(moveCm)).toBeGreaterThanOrEqual(2 * (flat(r).spreadSamples as number) * cmPerSample - 1e-9);
        expect(Math.sign(moveCm)).toBe(Math.sign(flat(r).delaySamples as number));
      }),
      { numRuns: RUNS },
    );
  });

  it('gives a delay of the arrival, or one within 1 ms of it, and never beside a move', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const { moveCm, delayLaterMs, action } = advise(r, c);
        expect(action === 'delay-later' || action === 'invert-and-delay').toBe(delayLaterMs !== null);
        if (delayLaterMs === null) return;
        expect(moveCm).toBeNull();
        const arrivalMs = ((flat(r).delaySamples as number) / r.sampleRate) * 1000;
        expect(Math.abs(delayLaterMs - arrivalMs)).toBeLessThanOrEqual(1.0051);
        expect(Math.abs(delayLaterMs)).toBeGreaterThanOrEqual(0.05);
      }),
      { numRuns: RUNS },
    );
  });

  it('never advises a loss, and says what it gains', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const a = advise(r, c);
        const [todo] = a.plan;
        if (todo === undefined) return;
        expect([todo.lowDb, todo.allDb]).toEqual([a.lowDb, a.allDb]);
        expect(Math.min(todo.lowDb as number, todo.allDb as number)).toBeGreaterThanOrEqual(-0.3);
        if (a.action !== 'leave') expect(a.text).toMatch(/ dB |fuller that way/);
      }),
      { numRuns: RUNS },
    );
  });

  it("asks for the same real switch and the same move whether the meter's invert is on or off", () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const straight = advise(r, c);
        const other = advise(turnedOver(r), { ...c, invertB: !c.invertB });
        expect([other.moveCm, other.delayLaterMs]).toEqual([straight.moveCm, straight.delayLaterMs]);
        expect(other.action).toBe(straight.action);
      }),
      { numRuns: RUNS },
    );
  });

  it('turns the move and the delay round, and nothing else, when A and B change places', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const straight = advise(r, c);
        const other = advise(swappedOver(r), c);
        expect(other.action).toBe(straight.action);
        expect(other.moveCm).toBe(straight.moveCm === null ? null : -straight.moveCm);
        expect(other.delayLaterMs).toBe(straight.delayLaterMs === null ? null : -straight.delayLaterMs);
      }),
      { numRuns: RUNS },
    );
  });

  it('calls the distances equal only within what is known, and the tolerance of the kind', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const { text } = advise(r, c);
        if (!text.startsWith('Polarity and timing are good')) return;
        expect(flat(r).uncertaintySamples).not.toBeNull();
        const cmPerSample = CM_PER_SAMPLE * Math.sqrt((c.temperatureC + 273.15) / 293.15);
        for (const samples of [flat(r).delaySamples, flat(r).spreadSamples, flat(r).uncertaintySamples]) {
          expect(Math.abs(samples as number) * cmPerSample).toBeLessThanOrEqual(pairKind(c.kind).toleranceCm + 1e-9);
        }
      }),
      { numRuns: RUNS },
    );
  });

  it('needs no second round once the polarity was put right as told', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const first = advise(r, c);
        if (first.action === 'cannot-tell') return;
        // B's real switch and the meter's invert, as the text has them pressed
        const presses = /^(Invert B|Mute B, press its polarity switch)/.test(first.text);
        const shown = presses !== c.invertB ? turnedOver(r) : r;
        const next = advise(shown, { ...c, invertB: false });
        // the switch alone gains nothing any more; what was advised with it still may
        expect(next.text).not.toMatch(/^(Mute|Switch “Invert B here”)/);
        if (first.action === 'invert') expect([next.action, next.moveCm]).toEqual(['leave', null]);
      }),
      { numRuns: RUNS },
    );
  });

  it('is made of clean sentences', () => {
    fc.assert(
      fc.property(fc.oneof(arrival, anything), context, (r, c) => {
        const a = advise(r, c);
        expect(said(a)).not.toMatch(/NaN|undefined|null|Infinity|phase|TODO| {2}|\.\.|-0/i);
        expect(said(a)).not.toMatch(/low end/);
        for (const sentence of [a.text, ...a.notes, ...a.cautions]) expect(sentence).toMatch(/^[A-Z0-9].*[.)]$/);
        expect(a.callOut).toMatch(/^[A-Z0-9].*[^.]$/);
        expect(a.callOut.length).toBeLessThanOrEqual(72);
        expect(a.sureness.length).toBeGreaterThan(0);
      }),
      { numRuns: RUNS },
    );
  });

  it('claims an answer only where an arrival or the sum gives one', () => {
    fc.assert(
      fc.property(anything, context, (r, c) => {
        const { action } = advise(r, { ...c, ended: r.hits % 2 === 0 });
        if (answerOf(r).state !== 'measured') expect(['hit-more', 'cannot-tell', 'fix-input']).toContain(action);
        // no sum was made up here
      }),
      { numRuns: RUNS },
    );
  });

  it('asks for another input in every state whose fault is the input', () => {
    for (const state of ['no-signal', 'same-signal', 'overloaded'] as const)
      for (const kind of PAIR_KIND_IDS) {
        const c: AdviceContext = { kind, temperatureC: 20, invertB: false };
        expect(advise(reading({ state, reason: 'agreed' }), c).action).toBe('fix-input');
      }
  });
});

describe('the sentence of a state', () => {
  it('exists for every state and reason, says what is wrong and what to do next', () => {
    for (const state of STATES)
      for (const reason of REASONS) {
        const sentence = reasonSentence(
          reading({ state, reason, hits: 3, hitsPooled: 3, hitsUsed: 3, polarity: 'same', delaySamples: 3 }),
        );
        expect(sentence).toMatch(/^[A-Z0-9][^:]+: .+\.$/);
        expect(sentence).not.toMatch(/NaN|undefined|null|phase/);
      }
  });

  it('belongs to the state even where the reason does not', () => {
    expect(reasonSentence(reading({ state: 'no-signal', reason: 'agreed' }))).toMatch(/silent/);
    expect(reasonSentence(reading({ state: 'unclear', reason: 'agreed' }))).toMatch(/don’t agree/);
    expect(reasonSentence(reading({ state: 'overloaded', reason: 'agreed' }))).toMatch(/gain down/);
  });

  it('differs from reason to reason', () => {
    const all = REASONS.map((reason) => reasonSentence(reading({ state: 'unclear', reason, hitsPooled: 2 })));
    // `agreed` has no sentence of its own in `unclear`
    expect(new Set(all).size).toBe(REASONS.length - 1);
  });
});

describe('a pair kind', () => {
  it('has whole sentences, marks what is common practice only, and lets only its own kind move', () => {
    for (const id of PAIR_KIND_IDS) {
      const kind = pairKind(id);
      const words = kindWords(id);
      expect(kind.id).toBe(id);
      expect(words.expectation).toMatch(/^[A-Z].*\.$/);
      if (id !== 'other') expect(words.expectation).toMatch(/ \(common practice, no source\)\.$/);
      expect(kind.movable).toBe(['same-side', 'two-overheads', 'top-bottom'].includes(id));
      expect(words.moveWarning === null).toBe(!kind.movable);
      expect(kind.maxLagMs).toBe(id === 'close-room' ? 34 : 11);
      expect(kind.phantomMayHarm).toBe(id === 'low-end-driver');
      expect(words.phantomCaution === null).toBe(!kind.phantomMayHarm);
    }
  });
});
