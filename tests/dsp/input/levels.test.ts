import { describe, expect, it } from 'vitest';
import { LevelMeter } from '../../../src/dsp/input/levels';
import { named } from '../../support/rules/named';
import { Gauss } from '../../support/sound/gauss';

/** One of what a meter writes: peak, RMS, DC. */
const written =
  (at: 0 | 1 | 2) =>
  (level: LevelMeter): number => {
    const out = new Float64Array(3);
    level.write(out, 0, 1, 2);
    return out[at];
  };
const peakOf = written(0);
const rmsOf = written(1);
const dcOf = written(2);

const RATE = 48000;
const made = (frames: number, f: (i: number) => number): Float64Array =>
  Float64Array.from({ length: frames }, (_, i) => f(i));

function meter(x: Float64Array, free = x): LevelMeter {
  const level = new LevelMeter(RATE);
  level.run(x, free, x.length);
  return level;
}

describe('levels', () => {
  it('a full-scale 997 Hz sine reads 0 dBFS RMS (AES17), and 0 dBFS peak', () => {
    const level = meter(made(RATE, (i) => Math.sin((2 * Math.PI * 997 * i) / RATE)));
    expect(rmsOf(level)).toBeCloseTo(0, 2);
    expect(peakOf(level)).toBeCloseTo(0, 3);
  });

  // Audio Engineering: Know It All (Newnes), table 2.9: two 90 dB tones φ apart
  it.each([
    [0, 96.02],
    [30, 95.72],
    [60, 94.77],
    [90, 93.01],
    [120, 90.0],
    [150, 84.28],
    [170, 74.83],
  ])('two equal tones %d° apart sum to %d dB where one is 90 dB', (degrees, expected) => {
    const tone = (i: number, phi: number): number => 0.1 * Math.sin((2 * Math.PI * 1000 * i) / RATE + phi);
    const one = rmsOf(meter(made(RATE, (i) => tone(i, 0))));
    const both = rmsOf(meter(made(RATE, (i) => tone(i, 0) + tone(i, (degrees * Math.PI) / 180))));
    expect(Math.abs(90 + both - one - expected)).toBeLessThan(0.006);
  });

  // power sum of unrelated signals: 10·log10(2), ±0.1 dB over 10 s of noise
  it('unrelated noises of equal level sum to +3.01 dB', () => {
    const [p, q] = [new Gauss(3), new Gauss(4)];
    const a = made(10 * RATE, () => 0.1 * p.next());
    const b = made(10 * RATE, () => 0.1 * q.next());
    const power = (x: Float64Array): number => {
      const level = new LevelMeter(RATE);
      let sum = 0;
      for (let at = 0; at < x.length; at += 0.4 * RATE) {
        const part = x.subarray(at, at + 0.4 * RATE);
        level.run(part, part, part.length);
        sum += 10 ** (rmsOf(level) / 10);
      }
      return 10 * Math.log10(sum / 25);
    };
    expect(Math.abs(power(a.map((v, i) => v + (b[i] as number))) - power(a) - 3.01)).toBeLessThan(0.1);
  });

  it('digital silence has no level', () => {
    const level = meter(made(RATE * 3, () => 0));
    expect(peakOf(level)).toBeNaN();
    expect(rmsOf(level)).toBeNaN();
    expect(level.silent).toBe(true);
  });

  it('counts runs of three or more full-scale samples, once each', () => {
    const x = made(1000, (i) => (i < 2 || (i >= 10 && i < 13) || (i >= 20 && i < 60) ? 1 : 0.1));
    expect(meter(x).clips).toBe(2);
    expect(meter(x.map((v) => -v)).clips).toBe(2);
    // 16-bit full scale
    expect(meter(made(3, () => 32767 / 32768)).clips).toBe(1);
  });

  it('tells DC, which is no signal', () => {
    const level = meter(
      made(RATE * 8, () => 0.25),
      made(RATE * 8, () => 0),
    );
    expect(dcOf(level)).toBeCloseTo(0.25, 3);
    expect(level.silent).toBe(true);
  });
});

describe('the limits', () => {
  /** A second of signal, then so many frames of what is no signal. */
  const fading = (frames: number, rest = 0): LevelMeter => meter(made(RATE + frames, (i) => (i < RATE ? 0.1 : rest)));

  it.each(
    named([
      { name: '2 s less a frame', frames: 2 * RATE - 1, rest: 0, silent: false },
      { name: '2 s', frames: 2 * RATE, rest: 0, silent: true },
      { name: '2 s at −80 dBFS', frames: 2 * RATE, rest: 1e-4, silent: true },
      { name: '2 s a little over −80 dBFS', frames: 2 * RATE, rest: -1.001e-4, silent: false },
    ]),
  )('silent after %s', (_, { frames, rest, silent }) => {
    const level = fading(frames, rest);
    expect(level.silent).toBe(silent);
    expect(level.heard).toBe(true);
  });

  it('one frame of signal ends a silence', () => {
    const level = fading(3 * RATE);
    level.run(Float64Array.of(0.01), Float64Array.of(0.01), 1);
    expect(level.silent).toBe(false);
  });

  it.each([
    { peak: 1e-4, heard: false },
    { peak: -1.001e-4, heard: true },
  ])('a peak of $peak is heard: $heard', ({ peak, heard }) =>
    expect(meter(Float64Array.of(0, peak, 0)).heard).toBe(heard),
  );

  it.each(
    named([
      { name: 'two full-scale samples', x: [1, -1], clips: 0 },
      { name: 'three', x: [1, -1, 1], clips: 1 },
      { name: 'two, one below, two', x: [1, 1, 0.5, 1, 1], clips: 0 },
      { name: 'three at 0.9999', x: [0.9999, 0.9999, -0.9999], clips: 1 },
      { name: 'three a little below', x: [0.99989, 0.99989, 0.99989], clips: 0 },
      { name: 'seven: one run', x: [1, 1, 1, 1, 1, 1, 1], clips: 1 },
      { name: 'two runs', x: [1, 1, 1, 0, 1, 1, 1], clips: 2 },
    ]),
  )('%s, whatever the blocks', (_, { x, clips }) => {
    expect(meter(Float64Array.from(x)).clips).toBe(clips);
    const level = new LevelMeter(RATE);
    for (const v of x) level.run(Float64Array.of(v), Float64Array.of(v), 1);
    expect(level.clips).toBe(clips);
  });

  // eighths of 0.4 s: a peak stays for the whole of it, and is gone an eighth later
  it.each([
    { seconds: 0.39, peakDbfs: -6.02 },
    { seconds: 0.46, peakDbfs: -40 },
  ])('a peak is shown $seconds s later as $peakDbfs dBFS', ({ seconds, peakDbfs }) => {
    const level = meter(made(1 + seconds * RATE, (i) => (i === 0 ? -0.5 : 0.01)));
    expect(peakOf(level)).toBeCloseTo(peakDbfs, 1);
  });

  it('a constant 0.5 for 0.4 s: −6.02 dB, read as a sine 3.01 dB more', () => {
    expect(rmsOf(meter(made(0.4 * RATE, () => -0.5)))).toBeCloseTo(-3.01, 2);
  });

  it('begin anew', () => {
    const level = meter(made(RATE, () => 1));
    level.clear();
    expect([level.clips, level.heard, level.silent, dcOf(level)]).toEqual([0, false, false, 0]);
    expect([peakOf(level), rmsOf(level)]).toEqual([Number.NaN, Number.NaN]);
    level.run(Float64Array.of(1, 1), Float64Array.of(1, 1), 2);
    expect(level.clips).toBe(0);
  });
});
