/** What is no sound (NaN, Inf, beyond ±1000) is a gap: no hit across it counts, and what comes after is read as if it had not been. */
import { describe, expect, test } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { HIGHEST_RATE, LOWEST_RATE, MOST_SAMPLE } from '../../src/files/soundness';
import { flat } from '../support/readings/flat';
import { struckPair } from '../support/sound/struckPair';

const RATE = 48000;
const DELAY = 10;

/** Hits every half a second from 0.4 s on, B 10 samples later; then what is done to them. */
function reading(hits: number, spoil: (a: Float32Array, b: Float32Array) => void) {
  const { a, b } = struckPair({ sampleRate: RATE, hits, delaySamples: DELAY, polarity: 'same' });
  spoil(a, b);
  const engine = new Engine(RATE);
  for (let i = 0; i < a.length; i += 480) engine.push(a.subarray(i, i + 480), b.subarray(i, i + 480));
  engine.flush();
  return flat(engine.reading());
}

const at = (seconds: number): number => Math.round(seconds * RATE);
const WRONG = [Number.NaN, Number.NEGATIVE_INFINITY, 1001];

describe('a gap', () => {
  test.each(WRONG)('of %d in one channel between two hits leaves the reading as it was', (value) => {
    const plain = reading(12, () => undefined);
    const read = reading(12, (a) => void a.fill(value, at(2.75), at(2.78)));
    expect([read.state, read.polarity]).toEqual(['measured', 'same']);
    expect(read.delaySamples).toBeCloseTo(plain.delaySamples as number, 1);
  });

  test.each(WRONG)('of %d across a hit: the hit is left out, the others are read', (value) => {
    const plain = reading(12, () => undefined);
    const read = reading(12, (_, b) => void b.fill(value, at(2.38), at(2.5)));
    expect(read.state).toBe('measured');
    expect([read.hits, read.hitsUsed]).toEqual([plain.hits, plain.hitsUsed - 1]);
    expect(read.delaySamples).toBeCloseTo(DELAY, 0);
  });

  test('a ringing drum that sets in again after each of sixteen gaps is no hit, and no delay of 0', () => {
    // B as recorded is 3.4 ms later and inverted; each gap ends in both channels at once
    const { a, b } = struckPair({ sampleRate: RATE, hits: 24, delaySamples: 163, polarity: 'inverted' });
    const engine = new Engine(RATE);
    for (let hit = 0; hit < 24; hit++) {
      const from = at(0.4 + 0.5 * hit);
      a.fill(Number.NaN, from - 200, from + 900);
      b.fill(Number.NaN, from - 200, from + 900);
    }
    engine.push(a, b);
    engine.flush();
    const read = flat(engine.reading());
    expect([read.state, read.hitsUsed, read.delaySamples, read.polarity]).toEqual(['listening', 0, null, null]);
  });

  test('blocks of nothing but it for a minute poison nothing: the same reading afterwards', () => {
    const { a, b } = struckPair({ sampleRate: RATE, hits: 8, delaySamples: DELAY, polarity: 'inverted' });
    const engine = new Engine(RATE);
    const bad = new Float32Array(RATE).fill(Number.NaN);
    for (let second = 0; second < 60; second++) engine.push(bad, bad);
    engine.push(a, b);
    engine.flush();
    const read = flat(engine.reading());
    expect([read.state, read.polarity]).toEqual(['measured', 'inverted']);
    expect(read.delaySamples).toBeCloseTo(DELAY, 0);
  });

  test('the engine takes what the files’ checks let through, and no more', () => {
    for (const rate of [LOWEST_RATE, HIGHEST_RATE]) expect(new Engine(rate).sampleRate).toBe(rate);
    for (const rate of [LOWEST_RATE - 1, HIGHEST_RATE + 1]) expect(() => new Engine(rate)).toThrow(RangeError);
    const engine = new Engine(RATE);
    const loud = new Float32Array(RATE).fill(MOST_SAMPLE - 1);
    engine.push(loud, loud);
    expect(engine.reading().inputs.a.peakDbfs).toBeGreaterThan(59);
    const beyond = new Engine(RATE);
    beyond.push(new Float32Array(RATE).fill(MOST_SAMPLE + 1), loud);
    expect(beyond.reading().inputs.b.peakDbfs).toBeNull();
  });
});
