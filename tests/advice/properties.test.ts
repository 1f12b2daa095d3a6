/** Properties of the advice over every reading that can be made up. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Advice, AdviceContext } from '../../src/advice/advice';
import { advise } from '../../src/advice/advise';
import { PAIR_KIND_IDS, pairKind } from '../../src/advice/plan/pairKinds';
import { kindWords } from '../../src/advice/words/pairKindWords';
import { reasonSentence } from '../../src/advice/words/reasonWords';
import { type Fuller, REASONS, STATES } from '../../src/reading/codes';
import type { Polarity, Reading } from '../../src/reading/reading';
import { answerOf } from '../../src/reading/reading';
import { changed, type Flat, flat } from '../support/readings/flat';
import { bands, CM_PER_SAMPLE, delaySpectrum, measured, reading, sums } from './readings';

const polarity = fc.constantFrom<Polarity>('same', 'inverted');
const fuller = fc.constantFrom<Fuller | null>('as-is', 'inverted', 'either', null);
const overDb = fc.option(fc.double({ min: -9, max: 9, noNaN: true }), { nil: undefined });
const arrival = fc
  .record({
    polarity,
    cm: fc.double({ min: -400, max: 400, noNaN: true }),
    repeatsCm: fc.double({ min: 0, max: 12, noNaN: true }),
    uncertaintyCm: fc.option(fc.double({ min: 0, max: 30, noNaN: true })),
    fuller,
    db: fc.double({ min: 0, max: 20, noNaN: true }),
    body: overDb,
    mid: overDb,
  })
  .map((x) => {
    const over = { ...(x.body === undefined ? {} : { body: x.body }), ...(x.mid === undefined ? {} : { mid: x.mid }) };
    const fields: Partial<Flat> = {
      ...(x.fuller === null ? {} : sums(x.fuller, x.db)),
      uncertaintySamples: x.uncertaintyCm === null ? null : x.uncertaintyCm / CM_PER_SAMPLE,
      bands: bands(over),
      spectrum: delaySpectrum(x.cm / 34321, x.polarity),
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
    fuller,
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

/** The same pair with B turned over: what the meter shows once its invert is pressed. */
function turned(r: Reading): Reading {
  const other = { 'as-is': 'inverted', inverted: 'as-is', either: 'either' } as const;
  const { polarity, fuller, bands, spectrum } = flat(r);
  return changed(r, {
    polarity: polarity === 'same' ? 'inverted' : 'same',
    fuller: fuller === null ? null : other[fuller],
    bands: bands.map((b) => ({ ...b, sumDb: b.sumInvertedDb, sumInvertedDb: b.sumDb })),
    spectrum: { ...spectrum, re: spectrum.re.map((x) => -x), im: spectrum.im.map((x) => -x) },
  });
}

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
      { numRuns: 2000 },
    );
  });

  it('gives a delay to apply later only where no move can be made, of the sign of the delay', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const { moveCm, delayLaterMs, action } = advise(r, c);
        if (action === 'delay-later') expect(delayLaterMs).not.toBeNull();
        if (delayLaterMs === null) return;
        expect(moveCm).toBeNull();
        expect(Math.abs(delayLaterMs - ((flat(r).delaySamples as number) / r.sampleRate) * 1000)).toBeLessThanOrEqual(
          0.0501,
        );
      }),
      { numRuns: 2000 },
    );
  });

  it("asks for the same real switch and the same move whether the meter's invert is on or off", () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const straight = advise(r, c);
        const other = advise(turned(r), { ...c, invertB: !c.invertB });
        expect([other.moveCm, other.delayLaterMs]).toEqual([straight.moveCm, straight.delayLaterMs]);
        expect(other.action).toBe(straight.action);
      }),
      { numRuns: 1000 },
    );
  });

  it('turns the move and the delay round, and nothing else, when A and B change places', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const { re, im, coherence } = r.sum.spectrum;
        const swapped = changed(r, {
          delaySamples: -(flat(r).delaySamples as number),
          spectrum: { re, im: im.map((x) => -x), coherence },
        });
        const straight = advise(r, c);
        const other = advise(swapped, c);
        expect(other.moveCm).toBe(straight.moveCm === null ? null : -straight.moveCm);
        expect(other.delayLaterMs).toBe(straight.delayLaterMs === null ? null : -straight.delayLaterMs);
      }),
      { numRuns: 1000 },
    );
  });

  it('calls the distances equal only within what is known, and the tolerance of the kind', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const { text } = advise(r, c);
        if (!/fine|equal within/.test(text)) return;
        expect(flat(r).uncertaintySamples).not.toBeNull();
        const cmPerSample = CM_PER_SAMPLE * Math.sqrt((c.temperatureC + 273.15) / 293.15);
        for (const samples of [flat(r).delaySamples, flat(r).spreadSamples, flat(r).uncertaintySamples]) {
          expect(Math.abs(samples as number) * cmPerSample).toBeLessThanOrEqual(pairKind(c.kind).toleranceCm + 1e-9);
        }
      }),
      { numRuns: 3000 },
    );
  });

  it('needs no second round once the polarity was put right as told', () => {
    fc.assert(
      fc.property(arrival, context, (r, c) => {
        const first = advise(r, c);
        if (first.action === 'cannot-tell') return;
        // B's real switch and the meter's invert, as the text has them pressed
        const presses = /^(Invert B|Press B's polarity switch)/.test(first.text);
        const shown = presses !== c.invertB ? turned(r) : r;
        const next = advise(shown, { ...c, invertB: false });
        expect(next.text).not.toMatch(/^(Invert|Press|Take the meter)/);
        expect(next.moveCm).toBe(first.moveCm);
      }),
      { numRuns: 2000 },
    );
  });

  it('is made of clean sentences', () => {
    fc.assert(
      fc.property(fc.oneof(arrival, anything), context, (r, c) => {
        const a = advise(r, c);
        expect(said(a)).not.toMatch(/NaN|undefined|null|Infinity|phase|TODO| {2}|\.\.|-0/i);
        // a row of the bands is named low: only what a microphone hears may be "the low end only"
        expect(said(a)).not.toMatch(/low end(?! only)/);
        for (const sentence of [a.text, ...a.notes, ...a.cautions]) expect(sentence).toMatch(/^[A-Z0-9].*[.)]$/);
        expect(a.callOut).toMatch(/^[A-Z0-9].*[^.]$/);
        expect(a.callOut.length).toBeLessThanOrEqual(70);
        expect(a.sureness.length).toBeGreaterThan(0);
      }),
      { numRuns: 3000 },
    );
  });

  it('claims an answer in the state `measured` only', () => {
    fc.assert(
      fc.property(anything, context, (r, c) => {
        const { action } = advise(r, { ...c, ended: r.hits % 2 === 0 });
        if (answerOf(r).state !== 'measured') expect(['hit-more', 'cannot-tell', 'fix-input']).toContain(action);
      }),
      { numRuns: 1000 },
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
    expect(reasonSentence(reading({ state: 'unclear', reason: 'agreed' }))).toMatch(/don't agree/);
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
      if (id !== 'other') expect(words.expectation).toMatch(/ \(common practice\)\.$/);
      expect(kind.movable).toBe(['same-side', 'two-overheads', 'top-bottom'].includes(id));
      expect(words.moveWarning === null).toBe(!kind.movable);
      expect(kind.maxLagMs).toBe(id === 'close-room' ? 34 : 11);
      expect(kind.phantomMayHarm).toBe(id === 'low-end-driver');
      expect(words.phantomCaution === null).toBe(!kind.phantomMayHarm);
    }
  });
});
