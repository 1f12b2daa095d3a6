/** What a reading tells of the sum round the present, against a recording that is really shifted. */
import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { HERE_STEPS } from '../../../src/reading/bands';
import type { Reading } from '../../../src/reading/reading';
import { openPair, recordedPairs, type Sound } from '../../support/sound/recordedPairs';

const scene = openPair(recordedPairs().find(({ name }) => name === 'scene snare-top-bottom') as never);

function read({ a, b, sampleRate }: Sound): Reading {
  const engine = new Engine(sampleRate, { maxLagMs: 11 });
  for (let at = 0; at < a.length; at += 4096) engine.push(a.subarray(at, at + 4096), b.subarray(at, at + 4096));
  engine.flush();
  return engine.reading();
}

describe('Re γ round the present', () => {
  const before = read(scene);

  it('at no shift is what the sum says now', () => {
    for (const [n, band] of (before.sum.here ?? []).entries()) {
      expect(band.re[(band.re.length - 1) / 2]).toBe(before.sum.now[n]);
      expect(band.stepSamples).toBe(HERE_STEPS[n]);
      expect(((band.re.length - 1) / 2) * band.stepSamples).toBe(96);
    }
    expect(before.sum.here).toHaveLength(6);
  });

  it.each([-64, -20, 8, 48])('is what is read once B really comes %i samples earlier', (shift) => {
    const b = Float32Array.from(scene.b, (_, i) => scene.b[i + shift] ?? 0);
    const { now } = read({ ...scene, b }).sum;
    for (const [n, { re, stepSamples }] of (before.sum.here ?? []).entries())
      expect(re[(re.length - 1) / 2 + shift / stepSamples]).toBeCloseTo(now[n] as number, 1);
  });

  it('reaches 60 cm from 0 °C on at 44.1 and 48 kHz', () => {
    const least = (0.6 / 331.3) * 48000;
    expect(96).toBeGreaterThanOrEqual(least);
    expect(96).toBeGreaterThanOrEqual((0.6 / 331.3) * 44100);
  });
});

describe('an engine with a short reach', () => {
  it('reads at a low rate as well', () => {
    const engine = new Engine(8000, { maxLagMs: 1 });
    for (let at = 0; at < 80000; at += 128) {
      const block = Float32Array.from({ length: 128 }, (_, i) => hitAt(at + i));
      engine.push(
        block,
        Float32Array.from({ length: 128 }, (_, i) => 0.5 * hitAt(at + i - 2) + 0.05 * hitAt(at + i - 9)),
      );
    }
    const { here } = engine.reading().sum;
    expect(here?.every(({ re }) => re.every((x) => Number.isNaN(x) || Math.abs(x) <= 1.001))).toBe(true);
    expect(here?.some(({ re }) => re.every(Number.isFinite))).toBe(true);
  });
});

/** A ring of 200 Hz every half second, a little of 900 Hz in it. */
function hitAt(frame: number): number {
  const t = (((frame % 4000) + 4000) % 4000) / 8000;
  if (frame < 0) return 0;
  return Math.exp(-t / 0.03) * (0.5 * Math.sin(2 * Math.PI * 200 * t) + 0.2 * Math.sin(2 * Math.PI * 900 * t));
}
