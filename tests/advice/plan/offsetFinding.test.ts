/** What is found while the input offset is measured: codes and numbers. The bounds are this program's own. */
import { describe, expect, it } from 'vitest';
import { findOffset, type OffsetFinding } from '../../../src/advice/plan/offsetFinding';
import type { OffsetGaugeReading } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { RATE, reading } from '../readings';

const SURE: OffsetGaugeReading = {
  hits: 8,
  agreeing: 8,
  offsetSamples: 12.304,
  scatterSamples: 0.01,
  polarity: 'same',
  height: 0.99,
};
const find = (gauge: Partial<OffsetGaugeReading> = {}, more: Partial<Flat> = {}, temperatureC = 20): OffsetFinding =>
  findOffset(reading({ gauge: { ...SURE, ...gauge }, ...more }), temperatureC);
const silent = { peakDbfs: null, rmsDbfs: null, clips: 0, dc: 0, silent: true };

describe('the input offset that is found', () => {
  it('is sure where four hits or more agree, match and hardly scatter', () => {
    const found = find();
    expect(found).toMatchObject({ fate: 'sure', code: 'sure', offsetSamples: 12.3, delaySamples: 12.304 });
    expect(found).toMatchObject({ agreeing: 8, hits: 8, unusual: false });
    if (found.fate !== 'sure') throw new Error('not sure');
    expect(found.delayMs).toBeCloseTo((12.304 / RATE) * 1000, 9);
    // 343.21 m/s at 20 °C, 331.3 m/s at 0 °C
    expect(found.pathCm).toBeCloseTo((12.304 / RATE) * 34321, 2);
    expect(find({}, {}, 0)).toMatchObject({ pathCm: expect.closeTo((12.304 / RATE) * 33130, 9) });
  });

  it('keeps its sign: negative where A is later', () => {
    const found = find({ offsetSamples: -12.304 });
    expect(found).toMatchObject({ fate: 'sure', offsetSamples: -12.3, delaySamples: -12.304 });
    if (found.fate === 'sure') expect([found.delayMs < 0, found.pathCm < 0]).toEqual([true, true]);
  });

  it('is unusual from 1 ms on', () => {
    expect(find({ offsetSamples: 47.9 })).toMatchObject({ fate: 'sure', unusual: false });
    expect(find({ offsetSamples: -48.1 })).toMatchObject({ fate: 'sure', unusual: true });
  });

  it.each<[Partial<OffsetGaugeReading>, Partial<Flat>, OffsetFinding]>([
    [{}, { bitIdentical: true }, { fate: 'refused', code: 'bit-identical' }],
    [{ hits: 0 }, { bitIdentical: true }, { fate: 'refused', code: 'bit-identical' }],
    [{ hits: 0 }, { a: silent }, { fate: 'refused', code: 'one-silent', silent: 'a' }],
    [{ hits: 0 }, { b: silent }, { fate: 'refused', code: 'one-silent', silent: 'b' }],
    [{ agreeing: 5 }, {}, { fate: 'refused', code: 'hits-disagree', agreeing: 5, hits: 8 }],
    [{ hits: 4, agreeing: 3 }, {}, { fate: 'refused', code: 'hits-disagree', agreeing: 3, hits: 4 }],
    [{ hits: 5, agreeing: 3 }, {}, { fate: 'refused', code: 'hits-disagree', agreeing: 3, hits: 5 }],
    [
      { agreeing: 0, offsetSamples: null, scatterSamples: null, polarity: null, height: null },
      {},
      { fate: 'refused', code: 'hits-disagree', agreeing: 0, hits: 8 },
    ],
    [{ height: 0.97 }, {}, { fate: 'refused', code: 'unlike-waveforms' }],
    // 5 µs at 48 kHz are 0.24 samples
    [{ scatterSamples: 0.25 }, {}, { fate: 'refused', code: 'scatter', scatterSamples: 0.25 }],
    [{ polarity: 'inverted' }, {}, { fate: 'refused', code: 'inverted' }],
    // 20 ms at 48 kHz are 960 samples
    [{ offsetSamples: -961 }, {}, { fate: 'refused', code: 'too-far', delayMs: expect.closeTo(20.0208, 4) }],
    [{ offsetSamples: -0.04 }, {}, { fate: 'refused', code: 'nothing', withinSamples: 0.05 }],
  ])('%o, %o is refused', (gauge, more, expected) => {
    expect(find(gauge, more)).toEqual(expected);
  });

  it.each<[Partial<OffsetGaugeReading>, Partial<Flat>]>([
    [{ agreeing: 6 }, {}],
    [{ hits: 4, agreeing: 4 }, {}],
    [{ height: 0.975 }, {}],
    [{ scatterSamples: 0.24 }, {}],
    // the same scatter in seconds
    [{ scatterSamples: 0.48 }, { sampleRate: 96000 }],
    [{ offsetSamples: 960 }, {}],
    [{ offsetSamples: 0.05 }, {}],
    // what is silent now was heard before
    [{}, { a: silent }],
  ])('%o, %o is just enough', (gauge, more) => {
    expect(find(gauge, more).fate).toBe('sure');
  });

  it('is listened for until there is enough', () => {
    expect(findOffset(null, 20)).toEqual({ fate: 'listening', code: 'beginning' });
    expect(findOffset(reading(), 20)).toEqual({ fate: 'listening', code: 'beginning' });
    expect(find({ hits: 0 })).toEqual({ fate: 'listening', code: 'nothing-heard' });
    expect(find({ hits: 0 }, { a: silent, b: silent })).toEqual({ fate: 'listening', code: 'nothing-heard' });
    expect(find({ hits: 3, agreeing: 3 })).toEqual({ fate: 'listening', code: 'too-few-hits', hits: 3, needed: 4 });
  });
});
