import { describe, expect, it } from 'vitest';
import type { Measurement } from '../../src/advice/measurement';
import { measureChannels } from '../../src/cli/measure';
import { BANDS } from '../../src/reading/bands';
import { struckPair } from '../support/sound/struckPair';
import { HIGH, LOW, twoDrums } from '../support/sound/twoDrums';

const sampleRate = 48000;
/** in the command's order: every key is always there */
const KEYS = [
  'sampleRate',
  'state',
  'reason',
  'reasonCode',
  'offsetSamples',
  'hits',
  'hitsUsed',
  'polarity',
  'delaySamples',
  'delayMs',
  'pathCm',
  'spreadSamples',
  'agreement',
  'uncertaintySamples',
  'drum',
  'drums',
  'correlation',
  'bands',
  'fuller',
  'fullerDb',
  'fullerLowHz',
  'fullerHighHz',
  'notchesHz',
  'advice',
  'plan',
  'perHit',
];
const BAND_KEYS = ['name', 'lowHz', 'highHz', 'correlation', 'coherence', 'sumDb', 'sumInvertedDb', 'sumAsRecordedDb'];

/** Every number in it is one, and every key is there. */
function expectWhole(measurement: Measurement): void {
  expect(Object.keys(measurement)).toEqual(KEYS);
  expect(measurement.bands.map((band) => band.name)).toEqual(BANDS.map((band) => band.name));
  for (const band of measurement.bands) expect(Object.keys(band)).toEqual(BAND_KEYS);
  expect(Object.keys(measurement.advice)).toEqual(['action', 'moveCm', 'delayLaterMs', 'text', 'notes', 'cautions']);
  measurement.plan.forEach((one, i) => {
    expect(Object.keys(one)).toEqual(['recommended', 'invertB', 'delayMs', 'moveCm', 'lowDb', 'allDb', 'bandsDb']);
    expect([one.recommended, one.bandsDb.length]).toEqual([i === 0, BANDS.length]);
  });
  for (const hit of measurement.perHit)
    expect(Object.keys(hit)).toEqual(['timeSeconds', 'delaySamples', 'polarity', 'drum', 'used']);
  const numbers = (value: unknown): number[] => {
    if (typeof value === 'number') return [value];
    return typeof value === 'object' && value !== null ? Object.values(value).flatMap(numbers) : [];
  };
  for (const value of numbers(measurement)) expect(Number.isFinite(value)).toBe(true);
  // a value that JSON can't say would come back as another
  expect(JSON.parse(JSON.stringify(measurement))).toEqual(measurement);
}

const measure = (
  pair: Partial<Parameters<typeof struckPair>[0]>,
  options?: Parameters<typeof measureChannels>[3],
): Measurement => {
  const { a, b } = struckPair({ sampleRate, hits: 8, delaySamples: 20, polarity: 'same', ...pair });
  const measurement = measureChannels(a, b, sampleRate, options);
  expectWhole(measurement);
  return measurement;
};

describe('what was heard', () => {
  it('holds together: delay, time, path, notches, hits', () => {
    const m = measure({});
    expect(m).toMatchObject({ sampleRate, state: 'measured', polarity: 'same', hits: 8, hitsUsed: 8 });
    expect(m.delaySamples).toBeCloseTo(20, 1);
    expect(m.delayMs).toBeCloseTo(20 / 48, 2);
    // 343.2 m/s at 20 °C: ISO 9613-1:1993
    expect(m.pathCm).toBeCloseTo(((m.delayMs as number) / 10) * 343.2, 1);
    // (2k+1)/(2|τ|) of the delay that was read (arithmetic check; the rule: Everest & Pohlmann, ch. 10)
    const tau = (m.delayMs as number) / 1000;
    expect(m.notchesHz.length).toBe(5);
    m.notchesHz.forEach((hz, k) => void expect(hz).toBeCloseTo((2 * k + 1) / (2 * tau), 2));
    expect(m.perHit.length).toBe(8);
    expect(m.perHit.filter((hit) => hit.used).length).toBe(m.hitsUsed);
    m.perHit.forEach((hit, i) => void expect(hit.timeSeconds).toBeCloseTo(0.4 + 0.5 * i, 2));
  });

  it('takes the temperature for the path alone', () => {
    const cold = measure({}, { temperatureC: 0 });
    const warm = measure({}, { temperatureC: 30 });
    expect(cold.delaySamples).toBe(warm.delaySamples);
    expect((warm.pathCm as number) / (cold.pathCm as number)).toBeCloseTo(Math.sqrt(303.15 / 273.15), 4);
  });

  it('takes the kind for the advice alone', () => {
    const near = measure({}, { kind: 'same-side' });
    expect(near.advice.action).toBe('move');
    // B hears the drum later, so it is to come closer: positive
    expect(near.advice.moveCm).toBeGreaterThan(12);
    expect(near.advice.moveCm).toBeLessThan(17);
    expect(measure({ delaySamples: -20 }, { kind: 'same-side' }).advice.moveCm).toBeLessThan(-12);
    const { advice: _, plan: __, ...rest } = near;
    expect(measure({}, { kind: 'inside-outside' })).toMatchObject(rest);
    expect(measure({ polarity: 'inverted' }, { kind: 'top-bottom' }).advice.action).toContain('invert');
  });

  it('has the whole alternatives, the recommended one first, the advice being that one', () => {
    const m = measure({ polarity: 'inverted' }, { kind: 'inside-outside' });
    const [first, ...others] = m.plan;
    expect(first).toMatchObject({ recommended: true, invertB: true });
    expect(Math.min(first?.lowDb as number, first?.allDb as number)).toBeGreaterThan(0.5);
    expect([m.advice.moveCm, m.advice.delayLaterMs]).toEqual([first?.moveCm, first?.delayMs]);
    expect(others).toContainEqual(
      expect.objectContaining({ invertB: false, delayMs: null, moveCm: null, lowDb: 0, allDb: 0 }),
    );
    for (const one of others) expect(one.lowDb).toBeLessThanOrEqual((first?.lowDb as number) + 0.5);
    expect(measure({ hits: 2 }).plan).toEqual([]);
  });

  it('looks further for a room microphone', () => {
    const late = { delaySamples: 960, hits: 8 }; // 20 ms
    expect(measure(late).delaySamples).toBe(null);
    const room = measure(late, { kind: 'close-room' });
    expect(room.state).toBe('measured');
    expect(room.delaySamples).toBeCloseTo(960, 0);
  });

  it('has a drum, and the drums heard with an answer each; hits of the others were not used', () => {
    const { a, b } = twoDrums(sampleRate, 6);
    const kit = measureChannels(a, b, sampleRate);
    expectWhole(kit);
    expect(kit.drum).toBe(kit.drums[0]?.id);
    expect(kit.drums.map((one) => [one.polarity, one.delaySamples])).toEqual([
      ['inverted', expect.closeTo(HIGH.delaySamples, 0)],
      ['same', expect.closeTo(LOW.delaySamples, 0)],
    ]);
    expect(kit.delaySamples).toBe(kit.drums[0]?.delaySamples);
    expect(kit.drums.map((one) => one.name)).toEqual([null, null]);
    expect(Object.keys(kit.drums[0] ?? {}).slice(0, 2)).toEqual(['id', 'name']);
    for (const one of kit.drums)
      expect([one.reasonCode, one.reason]).toEqual(['agreed', expect.stringMatching(/ agree.*\.$/)]);
    // the one that is read, and no other
    const named = measureChannels(a, b, sampleRate, { drumName: 'snare' });
    expect(named.drums.map((one) => one.name)).toEqual(['snare', null]);
    // struck in turn, the low one first
    expect(kit.perHit.map((hit) => hit.used)).toEqual(Array.from({ length: 12 }, (_, i) => i % 2 === 1));
    const [high, low] = kit.drums.map((one) => one.id);
    expect(kit.perHit.map((hit) => hit.drum)).toEqual(Array.from({ length: 12 }, (_, i) => (i % 2 === 1 ? high : low)));
    const silent = measureChannels(new Float32Array(sampleRate), new Float32Array(sampleRate), sampleRate);
    expect([silent.drum, silent.drums]).toEqual([null, []]);
  });

  it('tells of every hit behind the answer, also of those that a reading no longer tells of', () => {
    // of the drum that is read every sixth hit: its answer reaches back farther than the newest 32 of all
    const low = { ...LOW, gainA: 0.2, gainB: 0.2 };
    const { a, b } = twoDrums(sampleRate, 9, [HIGH, low, low, low, low, low]);
    const m = measureChannels(a, b, sampleRate);
    expectWhole(m);
    expect(m.polarity).toBe('inverted');
    expect(m.perHit.map((hit) => hit.used)).toEqual(Array.from({ length: 54 }, (_, i) => i % 6 === 0));
    expect(m.hitsUsed).toBe(9);
  });

  it('has null, and no notches, where there is no value', () => {
    const m = measure({ hits: 2 });
    expect(m).toMatchObject({
      state: 'listening',
      polarity: null,
      delaySamples: null,
      delayMs: null,
      pathCm: null,
      notchesHz: [],
    });
    expect(m.reason).toMatch(/Only 2 usable hits in this recording; 4 are needed/);
    const nothing = measureChannels(new Float32Array(0), new Float32Array(0), sampleRate);
    expectWhole(nothing);
    expect(nothing).toMatchObject({ hits: 0, perHit: [] });
    expect(['listening', 'no-signal']).toContain(nothing.state);
  });

  it('turns what is no sample into a state, not into a number', () => {
    const { a, b } = struckPair({ sampleRate, hits: 8, delaySamples: 20, polarity: 'same' });
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, 1e-40, 3e38]) {
      const spoiled = a.map((x, i) => (i % 5000 < 40 ? bad : x));
      expectWhole(measureChannels(spoiled, b, sampleRate));
      expectWhole(measureChannels(new Float32Array(48000).fill(bad), new Float32Array(48000), sampleRate));
    }
    expect(measureChannels(a, a, sampleRate).state).toBe('same-signal');
    expect(measureChannels(a, new Float32Array(a.length), sampleRate).state).toBe('no-signal');
    expectWhole(
      measureChannels(
        a,
        a.map((x) => -x),
        sampleRate,
      ),
    );
  });

  it('refuses channels of different lengths and impossible rates', () => {
    expect(() => measureChannels(new Float32Array(2), new Float32Array(3), sampleRate)).toThrow(RangeError);
    expect(() => measureChannels(new Float32Array(2), new Float32Array(2), 100)).toThrow(RangeError);
  });
});

describe('stopping after N used hits', () => {
  it('uses N, and hears the last one to its end', () => {
    for (const hits of [3, 4, 5, 8]) {
      const m = measure({ hits: 20 }, { hits });
      expect(m.hitsUsed).toBe(hits);
      expect(m.perHit.filter((hit) => hit.used).length).toBe(hits);
      expect(m.fuller).not.toBe(null); // known from 3 hits on, all three with their tails
    }
  });

  it('counts past what one reading remembers: hits that were used and are old count', () => {
    const m = measure({ hits: 50 }, { hits: 40 });
    expect(m.hits).toBe(40);
    expect(m.perHit.length).toBe(40);
    expect(m.perHit.filter((hit) => hit.used).length).toBe(m.hitsUsed);
    expect(m.perHit.map((hit) => hit.timeSeconds)).toEqual(
      m.perHit.map((hit) => hit.timeSeconds).sort((x, y) => x - y),
    );
  });

  it('reads to the end when there are fewer', () => {
    expect(measure({ hits: 6 }, { hits: 100 }).hits).toBe(6);
  });
});
