import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { Biquad } from '../../../src/dsp/signal/filters';
import { readWav } from '../../../src/files/readWav';
import { type Flat, flat } from '../../support/readings/flat';
import { Gauss } from '../../support/sound/gauss';
import { realPath, realRecordings, realRecordingsHere } from '../../support/sound/realRecordings';
import { shifted } from '../../support/sound/shifted';
import { pairOfHits } from '../../support/sound/simpleKit';

function gauge(a: Float32Array, b: Float32Array, sampleRate = 48000): Flat {
  const engine = new Engine(sampleRate, { maxLagMs: 34, settingOffset: true, offsetSamples: 5 });
  for (let i = 0; i < a.length; i += 512) engine.push(a.subarray(i, i + 512), b.subarray(i, i + 512));
  engine.flush();
  return flat(engine.reading());
}

/** What a converter adds of its own. */
function noisy(x: Float32Array, rms: number, seed: number): Float32Array {
  const gauss = new Gauss(seed);
  return x.map((v) => v + rms * gauss.next());
}

describe('measuring the offset', () => {
  const { a: source } = pairOfHits({ hits: 8, noise: 0 });

  for (const sampleRate of [44100, 96000])
    for (const offset of [12.3, -0.45, 480.25, -860.7])
      it(`one source through two converters, ${offset} samples apart, at ${sampleRate} Hz`, () => {
        const a = noisy(source, 1e-4, 1);
        const r = gauge(a, noisy(shifted(source, offset), 1e-4, 2), sampleRate);
        expect(r.gauge).toMatchObject({ hits: 8, agreeing: 8, polarity: 'same' });
        expect(r.gauge?.offsetSamples).toBeCloseTo(offset, 1);
        expect(r.gauge?.scatterSamples).toBeLessThan(0.05);
        expect(r.gauge?.height).toBeGreaterThan(0.98);
        // nothing is taken out meanwhile, and one source is no fault
        expect(r.offsetSamples).toBe(0);
        expect(r.state).not.toBe('same-signal');
      });

  it('swapped gives the negative', () => {
    const a = noisy(source, 1e-4, 1);
    const b = noisy(shifted(source, 12.3), 1e-4, 2);
    expect(gauge(b, a).gauge?.offsetSamples).toBeCloseTo(-(gauge(a, b).gauge?.offsetSamples ?? Number.NaN), 3);
  });

  it('an inverted path is told, whatever the meter inverts', () => {
    const b = noisy(shifted(source, 12.3), 1e-4, 2).map((v) => -0.5 * v);
    const engine = new Engine(48000, { maxLagMs: 34, settingOffset: true });
    engine.setInvertB(true);
    engine.push(noisy(source, 1e-4, 1), b);
    engine.flush();
    expect(flat(engine.reading()).gauge?.polarity).toBe('inverted');
  });

  it('one signal routed twice is bit-identical', () => {
    expect(gauge(source, source)).toMatchObject({ state: 'same-signal', reason: 'bit-identical', bitIdentical: true });
  });

  it('two unrelated sources give hits that don’t agree, or don’t match', () => {
    const other = pairOfHits({ hits: 8, noise: 0, seed: 7, gainA: 0.3 }).a;
    const gauss = new Gauss(5);
    const apart = noisy(source, 1e-4, 1).map((v) => v * gauss.next());
    for (const b of [apart, noisy(other, 1e-4, 3).map((v) => v * gauss.next())]) {
      const { gauge: g } = gauge(noisy(source, 1e-4, 1), b);
      expect((g?.agreeing ?? 0) < 4 || (g?.height ?? 0) < 0.975).toBe(true);
    }
  });

  it('restarts empty', () => {
    const engine = new Engine(48000, { maxLagMs: 34, settingOffset: true });
    engine.push(noisy(source, 1e-4, 1), noisy(source, 1e-4, 2));
    expect(flat(engine.reading()).gauge?.agreeing).toBe(8);
    engine.restart();
    expect(flat(engine.reading()).gauge).toEqual({
      hits: 0,
      agreeing: 0,
      offsetSamples: null,
      scatterSamples: null,
      polarity: null,
      height: null,
    });
  });

  it('is absent otherwise', () => {
    expect(new Engine(48000).reading().gauge).toBeNull();
  });
});

describe.skipIf(!realRecordingsHere)('measuring the offset with real hits', () => {
  const takes = realRecordingsHere ? realRecordings().filter((r) => r.class === 'firm') : [];
  const channels = (file: string) => {
    const wav = readWav(readFileSync(realPath(file)));
    const frames = Math.min(wav.frames, 6 * wav.sampleRate);
    return { a: wav.read(0).subarray(0, frames), b: wav.read(1).subarray(0, frames), sampleRate: wav.sampleRate };
  };
  for (const { file } of takes) {
    it(`${file}: one of its channels through both converters`, () => {
      const { a, sampleRate } = channels(file);
      const b = shifted(a, 12.3).map((v) => 0.6 * v);
      const r = gauge(noisy(a, 1e-4, 1), noisy(b, 1e-4, 2), sampleRate);
      expect(r.gauge?.offsetSamples).toBeCloseTo(12.3, 1);
      expect(r.gauge?.height).toBeGreaterThan(0.98);
      expect(r.gauge?.agreeing).toBeGreaterThanOrEqual(4);
    });
    it(`${file}: two microphones in two places are not one source`, () => {
      const { a, b, sampleRate } = channels(file);
      const g = gauge(a, b, sampleRate).gauge;
      expect((g?.agreeing ?? 0) < 4 || (g?.height ?? 0) < 0.975).toBe(true);
    });
  }

  it('two unlike microphones at one spot still match', () => {
    const { a, sampleRate } = channels('snare-top-bottom.wav');
    const through = (x: Float32Array, lowHz: number, highHz: number): Float32Array => {
      const y = Float64Array.from(x);
      new Biquad('highpass', sampleRate, lowHz).run(y, y, y.length);
      new Biquad('lowpass', sampleRate, highHz).run(y, y, y.length);
      return Float32Array.from(y);
    };
    const r = gauge(through(a, 60, 18000), noisy(through(shifted(a, 12.3), 30, 12000), 1e-4, 2), sampleRate);
    expect(r.gauge?.height).toBeGreaterThan(0.975);
    // the duller one's own delay belongs to what is taken out: below a sample
    expect(Math.abs((r.gauge?.offsetSamples ?? 0) - 12.3)).toBeLessThan(1);
  });
});
