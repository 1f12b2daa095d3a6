/** Nothing in a plan is read by a person: whatever is read, its strings are codes. */
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { drumSays, usedHits, whichShown } from '../../../src/advice/plan/drums';
import { fateOf } from '../../../src/advice/plan/hitFates';
import { findOffset } from '../../../src/advice/plan/offsetFinding';
import { PAIR_KIND_IDS, pairKind } from '../../../src/advice/plan/pairKinds';
import { plan } from '../../../src/advice/plan/plan';
import { whyOf } from '../../../src/advice/plan/whyFacts';
import { DRUM_STATES, FATES, METHODS, REASONS, STATES } from '../../../src/reading/codes';
import type { Polarity } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { hit, picture } from '../hits';
import { CM_PER_SAMPLE, drum, reading, sumOf } from '../readings';

/** Every string in it, and the keys' none. */
function strings(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  return typeof value === 'object' && value !== null ? Object.values(value).flatMap(strings) : [];
}

const polarity = fc.constantFrom<Polarity>('same', 'inverted');
const cm = fc.oneof(fc.double({ min: -8, max: 8, noNaN: true }), fc.double({ min: -200, max: 200, noNaN: true }));
const drums = fc.array(fc.record({ state: fc.constantFrom(...DRUM_STATES), cm }), { maxLength: 3 });
const readings = fc
  .record({
    state: fc.constantFrom(...STATES, 'measured' as const, 'measured' as const),
    reason: fc.constantFrom(...REASONS),
    hits: fc.nat({ max: 40 }),
    hitsPooled: fc.nat({ max: 16 }),
    agreement: fc.option(fc.double({ min: 0, max: 1, noNaN: true })),
    polarity,
    cm,
    knownCm: fc.option(fc.double({ min: 0, max: 20, noNaN: true })),
    lowHz: fc.constantFrom(null, 44, 88, 354),
    all: fc.boolean(),
    offSamples: fc.double({ min: -40, max: 40, noNaN: true }),
    method: fc.option(fc.constantFrom(...METHODS)),
    turned: polarity,
    fates: fc.array(fc.constantFrom(...FATES), { maxLength: 20 }),
    drums,
    drumChosen: fc.boolean(),
    bitIdentical: fc.boolean(),
    agreeing: fc.nat({ max: 8 }),
    height: fc.double({ min: 0.96, max: 1, noNaN: true }),
  })
  .map((x) => {
    const fields: Partial<Flat> = {
      state: x.state,
      reason: x.reason,
      hits: x.hits,
      hitsPooled: x.hitsPooled,
      agreement: x.agreement,
      polarity: x.polarity,
      delaySamples: x.cm / CM_PER_SAMPLE,
      spreadSamples: 0.2,
      uncertaintySamples: x.knownCm === null ? null : x.knownCm / CM_PER_SAMPLE,
      method: x.method,
      ...sumOf({
        polarity: x.turned,
        delaySamples: x.cm / CM_PER_SAMPLE + x.offSamples,
        lowHz: x.lowHz,
        all: x.all,
        nearSamples: x.state === 'measured' ? x.cm / CM_PER_SAMPLE : null,
      }),
      perHit: x.fates.map((fate, i) => hit(i + 1, fate, { drum: (i % 3) + 1 })),
      drums: x.drums.map((each, i) => drum(i + 1, { state: each.state, delaySamples: each.cm / CM_PER_SAMPLE })),
      drum: x.drums.length > 0 ? x.drums.length : null,
      drumChosen: x.drumChosen,
      bitIdentical: x.bitIdentical,
      gauge: {
        hits: 8,
        agreeing: x.agreeing,
        offsetSamples: 12,
        scatterSamples: 0,
        polarity: x.polarity,
        height: x.height,
      },
    };
    return reading(fields);
  });
const contexts = fc.record({
  kind: fc.constantFrom(...PAIR_KIND_IDS),
  temperatureC: fc.double({ min: -20, max: 50, noNaN: true }),
  invertB: fc.boolean(),
  switched: fc.constantFrom(undefined, false, true),
  ended: fc.boolean(),
});

it('a plan, its reasons, fates and drums are codes and numbers', () => {
  fc.assert(
    fc.property(readings, contexts, (r, c) => {
      const all = [
        plan(r, c),
        pairKind(c.kind),
        whyOf(r, c),
        whichShown(r),
        usedHits(r),
        findOffset(r, c.temperatureC),
        ...r.drums.map((each) => drumSays(each, r, c.temperatureC, c.ended)),
        ...r.perHit.flatMap((each) => [fateOf(each, r, null), fateOf(each, r, picture({}, { noiseBound: true }))]),
      ];
      for (const text of strings(all)) expect(text).toMatch(/^[a-z]+(-[a-z]+)*$/);
    }),
    { numRuns: 1000 },
  );
});
