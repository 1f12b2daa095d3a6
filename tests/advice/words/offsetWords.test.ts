import { describe, expect, it } from 'vitest';
import { findOffset } from '../../../src/advice/plan/offsetFinding';
import { sayOffset } from '../../../src/advice/words/offsetWords';
import type { OffsetGaugeReading } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { reading } from '../readings';

const SURE: OffsetGaugeReading = {
  hits: 8,
  agreeing: 8,
  offsetSamples: 12.304,
  scatterSamples: 0.01,
  polarity: 'same',
  height: 0.99,
};
const find = (gauge: Partial<OffsetGaugeReading> = {}, more: Partial<Flat> = {}) =>
  sayOffset(findOffset(reading({ gauge: { ...SURE, ...gauge }, ...more }), 20));

describe('what is found while the offset is measured', () => {
  it('four hits that agree, match and hardly scatter are sure', () => {
    // 12.304 samples at 48 kHz: 0.2563 ms; 343.2 m/s at 20 °C: 8.8 cm
    expect(find()).toEqual({
      fate: 'sure',
      offsetSamples: 12.3,
      text: 'B is 12.30 samples (0.256 ms) later, the same as 8.8 cm of air. 8 of 8 hits agree.',
    });
    expect(find({ offsetSamples: -12.304, hits: 4, agreeing: 4 })).toMatchObject({
      offsetSamples: -12.3,
      text: expect.stringMatching(/^A is 12\.30 samples/),
    });
    expect(find({ hits: 8, agreeing: 6 }).fate).toBe('sure');
    expect(find({ offsetSamples: 50 }).text).toMatch(
      /a lot for converters: check that both inputs have the same source\.$/,
    );
  });

  it.each<[string, Partial<OffsetGaugeReading>, Partial<Flat>, RegExp]>([
    [
      'one signal twice',
      {},
      { bitIdentical: true },
      /A and B carry the same signal.*Split one mic ahead.*phantom from one input only/,
    ],
    [
      'one input silent',
      { hits: 0 },
      { a: { peakDbfs: null, rmsDbfs: null, clips: 0, dc: 0, silent: true } },
      /Input A is silent\. Drummer stopped, monitors down: check.*phantom if it’s a condenser/,
    ],
    ['hits that don’t agree', { agreeing: 5 }, {}, /only 5 of 8 hits agree.*start over/],
    [
      'no hit that is clear',
      { agreeing: 0, offsetSamples: null, scatterSamples: null, polarity: null, height: null },
      {},
      /none of 8/,
    ],
    ['two sources', { height: 0.97 }, {}, /don’t hear the same thing.*Split one mic/],
    ['scatter', { scatterSamples: 0.25 }, {}, /spread 0\.25 samples.*Keep the source/],
    ['an inverted path', { polarity: 'inverted' }, {}, /inverted relative to A.*put it right/],
    ['more than converters do', { offsetSamples: 961 }, {}, /20\.0 ms apart: too much.*wrong patch/],
    ['nothing', { offsetSamples: -0.04 }, {}, /match to within.*nothing to correct/],
  ])('%s is refused in a sentence', (_, gauge, more, text) => {
    const found = find(gauge, more);
    expect(found).toMatchObject({ fate: 'refused', offsetSamples: null });
    expect(found.text).toMatch(text);
    expect(found.text).toMatch(/^[A-Z].*\.$/);
  });

  it('until then it listens, and says how far it is', () => {
    expect(sayOffset(findOffset(reading(), 20)).fate).toBe('listening');
    expect(find({ hits: 0 })).toMatchObject({
      fate: 'listening',
      text: 'Nothing heard yet: clap, or hit two sticks together.',
    });
    expect(find({ hits: 3, agreeing: 3 })).toMatchObject({ fate: 'listening', offsetSamples: null });
  });
});
