/** Drawn cases: the same for the same seed, true to their geometry, and spoilt as they say. */
import { describe, expect, it, vi } from 'vitest';
import { firstAbove } from '../samples/attack';
import { CASE_GROUPS, type KitCase, QUOTED_SEEDS, TUNING_SEEDS } from './case';
import { drawCase, groupOf, TURN_LENGTH } from './drawCase';
import { Judge } from './judge';
import { renderCase } from './renderCase';
import { samplesToCm, truthOf } from './truth';

vi.setConfig({ testTimeout: 60_000 });

const seedOf = (group: KitCase['group'], from: number = TUNING_SEEDS.from): number => {
  for (let seed = from; ; seed++) if (groupOf(seed) === group) return seed;
};
const peakOf = (x: Float32Array): number => x.reduce((most, v) => Math.max(most, Math.abs(v)), 0);

describe('a seed', () => {
  it('gives one case, and one sound of it', () => {
    const seed = seedOf('bleed');
    expect(drawCase(seed)).toEqual(drawCase(seed));
    expect(drawCase(seed + TURN_LENGTH)).not.toEqual(drawCase(seed));
    expect(
      Buffer.compare(
        Buffer.from(renderCase(drawCase(seed)).a.buffer),
        Buffer.from(renderCase(drawCase(seed)).a.buffer),
      ),
    ).toBe(0);
  });

  it('draws every group, every pair kind and every rate in 264 quoted ones', () => {
    const cases = Array.from({ length: 8 * TURN_LENGTH }, (_, i) => drawCase(QUOTED_SEEDS.from + i));
    expect(new Set(cases.map((made) => made.group))).toEqual(new Set(CASE_GROUPS));
    expect(new Set(cases.map((made) => made.kind)).size).toBe(10);
    expect(new Set(cases.map((made) => made.sampleRate))).toEqual(new Set([44100, 48000, 88200, 96000]));
    const inverted = cases.filter((made) => made.wiredInverted).length;
    expect(inverted / cases.length).toBeGreaterThan(0.25);
    expect(inverted / cases.length).toBeLessThan(0.45);
  });
});

describe('the truth', () => {
  it('is plain geometry: c = 343.21 m/s at 20 °C (331.3·√(1 + 20/273.15))', () => {
    const made = drawCase(seedOf('clean'));
    const [own] = truthOf(made);
    const [source] = made.sources;
    const metres = (p: readonly number[], q: readonly number[]) => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
    const paths = source.strikes.map(({ place }) => metres(made.b.at, place) - metres(made.a.at, place));
    const mean = paths.reduce((sum, path) => sum + path, 0) / paths.length;
    expect(own.delaySamples).toBeCloseTo((mean / 343.2146) * made.sampleRate, 2);
    expect(samplesToCm(own.delaySamples, made.sampleRate)).toBeCloseTo(100 * mean, 6);
  });

  it('is what sounds: nothing before the arrival, the push right after it, with its sign in each channel', () => {
    for (const seed of [0, 1, 2].map((i) => seedOf('clean', TUNING_SEEDS.from + i * TURN_LENGTH))) {
      const made = bare(drawCase(seed));
      const { a, b, sampleRate } = renderCase(made);
      const [own] = truthOf(made);
      const [strike] = made.sources[0].strikes;
      const metres = (p: readonly number[]) => Math.hypot(...p.map((x, i) => x - strike.place[i]));
      const sign = (x: Float32Array, at: readonly number[]): number => {
        const arrival = (strike.timeSeconds + metres(at) / 343.2146) * sampleRate;
        const y = Float64Array.from(x);
        const peak = peakOf(x);
        expect(firstAbove(y, 0, Math.ceil(arrival) - 1, 1e-4 * peak)).toBe(-1);
        const first = firstAbove(y, 0, y.length, 2e-3 * peak);
        expect((first - arrival) / sampleRate).toBeLessThan(0.0006);
        return Math.sign(y[first]);
      };
      expect(sign(a, made.a.at) * sign(b, made.b.at)).toBe(own.polarity === 'same' ? 1 : -1);
    }
  });

  it('of a microphone that moves 10 cm changes by 10 cm, over 5 s', () => {
    const made = drawCase(seedOf('moving'));
    const [own] = truthOf(made);
    const cm = own.hits.map((hit) => samplesToCm(hit.delaySamples, made.sampleRate));
    const [before, after] = [cm.slice(0, 9), cm.slice(-7)].map(
      (list) => list.reduce((sum, v) => sum + v, 0) / list.length,
    );
    // the stick lands elsewhere each time
    expect(Math.abs(Math.abs(after - before) - 10)).toBeLessThan(2);
    expect(made.b.move && made.b.move.toSeconds - made.b.move.fromSeconds).toBe(5);
    const judge = new Judge(made);
    const answer = {
      polarity: own.polarity,
      delaySamples: own.hits[5].delaySamples,
      hitSeconds: [own.hits[5].timeSeconds],
    };
    expect(judge.judge({ ...answer, atSeconds: own.hits[6].timeSeconds }).right).toBe(true);
    expect(judge.judge({ ...answer, atSeconds: own.hits[27].timeSeconds }).right).toBe(false);
  });
});

describe('the faults', () => {
  it('are as loud as they say', () => {
    const made = bare(drawCase(seedOf('clean')));
    const quiet = renderCase(made).a;
    for (const change of [{ noiseDb: -50 }, { humDb: -50 }]) {
      const { a } = renderCase({ ...made, a: { ...made.a, ...change } });
      let power = 0;
      for (let i = 0; i < a.length; i++) power += (a[i] - quiet[i]) ** 2;
      expect(20 * Math.log10(Math.sqrt(power / a.length) / peakOf(quiet))).toBeCloseTo(-50, 0);
    }
  });

  it('clip one channel flat, and leave a weak one its few bits', () => {
    const clipped = renderCase(drawCase(seedOf('clipped')));
    expect(Math.max(peakOf(clipped.a), peakOf(clipped.b))).toBe(1);
    const weak = renderCase(drawCase(seedOf('weak channel')));
    expect(Math.min(peakOf(weak.a), peakOf(weak.b))).toBeLessThan(10 ** (-23 / 20));
  });

  it('leave a dead input without the drum', () => {
    const made = drawCase(seedOf('dead input'));
    const { a, b } = renderCase(made);
    expect(peakOf(b)).toBeLessThan(0.01 * peakOf(a));
    expect(truthOf(made)).toEqual([]);
  });
});

/** One drum, flat microphones, no room, no fault. */
function bare(made: KitCase): KitCase {
  const flat = {
    lowCutHz: 1,
    lowCutOrder: 1,
    highCutHz: 40000,
    highCutOrder: 1,
    presenceHz: 1000,
    presenceDb: 0,
  } as const;
  const clean = {
    noiseDb: Number.NEGATIVE_INFINITY,
    humDb: Number.NEGATIVE_INFINITY,
    dc: 0,
    bits: 24,
    response: flat,
    room: null,
    detours: [],
  } as const;
  const channel = (m: KitCase['a']): KitCase['a'] => ({ ...m, ...clean, detours: [] });
  return { ...made, converter: 'causal', sources: made.sources.slice(0, 1), a: channel(made.a), b: channel(made.b) };
}
