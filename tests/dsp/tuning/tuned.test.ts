import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { TUNING } from '../../../src/dsp/tuning';
import { tuned, tuningParts, tuningPaths } from '../../../src/dsp/tuning/tuned';
import { HITS_NEEDED, QUIET_PEAK, WITNESS_SECONDS } from '../../../src/reading/limits';
import type { DrumTruth } from '../../cases/case';
import { drawCase } from '../../cases/drawCase';
import { renderCase } from '../../cases/renderCase';
import { truthOf } from '../../cases/truth';
import { HIGH, LOW, type StruckDrum, twoDrums } from '../../support/sound/twoDrums';

const valueAt = (path: string, tuning: object = TUNING): unknown =>
  path.split('.').reduce((node, key) => (node as Record<string, unknown>)[key], tuning as unknown);

describe('the tuning', () => {
  it('can be changed by nobody, at any depth', () => {
    const changed = tuned({ 'delay.pick.share': 0.6 });
    for (const tuning of [TUNING, changed])
      for (const path of [...tuningPaths(), ...tuningParts()]) {
        const keys = path.split('.');
        const last = keys.pop() as string;
        const section = valueAt(keys.join('.'), tuning) as Record<string, unknown>;
        expect(Object.isFrozen(section), path).toBe(true);
        expect(() => {
          section[last] = 0;
        }, path).toThrow(TypeError);
      }
  });

  it('lists every number by its path, and every part', () => {
    const paths = tuningPaths();
    expect(new Set(paths).size).toBe(paths.length);
    for (const path of paths) expect(Number.isFinite(valueAt(path)), path).toBe(true);
    for (const path of ['delay.pick.share', 'hit.fingerprint.edgesHz.2', 'sum.chance']) expect(paths).toContain(path);
    for (const path of tuningParts()) expect(valueAt(path), path).toBe(true);
    const leaves = (node: object): number =>
      Object.values(node).reduce((n: number, v) => n + (typeof v === 'object' && v !== null ? leaves(v) : 1), 0);
    expect(paths.length + tuningParts().length).toBe(leaves(TUNING));
  });

  it('names its units: nothing but seconds, Hz, dB, samples, and what has no unit', () => {
    for (const path of tuningPaths()) expect(path, path).not.toMatch(/(Ms|Khz|Frames|Cm|Percent|Dbfs)(\.|$)/);
  });

  it('takes what words and screen use too from where they have it', () => {
    expect(TUNING.delay.hitsNeeded).toBe(HITS_NEEDED);
    expect(TUNING.delay.decision.witnessSeconds).toBe(WITNESS_SECONDS);
    expect([TUNING.input.level.silentPeak, TUNING.hit.arrival.leastPeak]).toEqual([QUIET_PEAK, QUIET_PEAK]);
  });
});

describe('a tuning with changes', () => {
  it('has them, and everything else as it was', () => {
    const changes = { 'delay.pick.share': 0.6, 'delay.motion.awayScatters.1': 3, 'parts.stack': false };
    const changed = tuned(changes);
    for (const path of [...tuningPaths(), ...tuningParts()])
      expect(valueAt(path, changed), path).toBe((changes as Record<string, unknown>)[path] ?? valueAt(path));
    expect(TUNING.delay.pick.share).toBe(0.75);
    expect(Array.isArray(changed.delay.motion.awayScatters)).toBe(true);
  });

  it('without any is the engine’s own', () => {
    expect(tuned({})).toEqual(TUNING);
  });

  it.each(['delay.pick.shares', 'pick.share', '', 'delay', 'delay.pick', 'delay.pick.share.x', 'constructor.name'])(
    'refuses a path that leads to no value: "%s"',
    (path) => {
      expect(() => tuned({ [path]: 1 })).toThrow(RangeError);
    },
  );

  it.each(['hit.fingerprint.edgesHz', 'hit.fingerprint.edgesHz.length', 'hit.fingerprint.edgesHz.9'])(
    'refuses to change the length of a list: %s',
    (path) => {
      expect(() => tuned({ [path]: 1 })).toThrow(RangeError);
    },
  );

  it('refuses another type, and a number that isn’t finite', () => {
    expect(() => tuned({ 'delay.pick.share': true })).toThrow(TypeError);
    expect(() => tuned({ 'parts.stack': 0 })).toThrow(TypeError);
    expect(() => tuned({ 'delay.pick.share': '0.6' as unknown as number })).toThrow(TypeError);
    for (const value of [Number.NaN, Number.POSITIVE_INFINITY])
      expect(() => tuned({ 'delay.pick.share': value })).toThrow(RangeError);
  });
});

/** A copy of the tuning that notes the path of every value that is read. */
function watched(seen: Set<string>, node: object = TUNING, before = ''): object {
  // a copy: of a frozen object a proxy must hand out what that holds
  const copy = Array.isArray(node) ? [...node] : { ...node };
  for (const [key, value] of Object.entries(copy))
    if (typeof value === 'object' && value !== null)
      Object.assign(copy, { [key]: watched(seen, value, `${before}${key}.`) });
  return new Proxy(copy, {
    get(target, key) {
      if (typeof key === 'string') seen.add(before + key);
      return Reflect.get(target, key);
    },
  });
}

const RATE = 48000;

describe('an engine that was given a tuning', () => {
  it('reads each of its values from that, and from nowhere else', { timeout: 60_000 }, () => {
    const seen = new Set<string>();
    const tuning = watched(seen) as typeof TUNING;
    const read = (sampleRate: number, ...pairs: { a: Float32Array; b: Float32Array }[]): void => {
      const engine = new Engine(sampleRate, { tuning });
      for (const { a, b } of pairs) {
        engine.push(a, b);
        engine.reading();
      }
      engine.flush();
      engine.reading();
    };
    const at = (delaySamples: number): StruckDrum => ({ ...LOW, delaySamples });
    // a microphone that is moved
    read(RATE, twoDrums(RATE, 12), twoDrums(RATE, 8, [at(50)]));
    // two drums that sound alike, and then a microphone that is moved
    read(RATE, twoDrums(RATE, 12, [at(40), at(-30)]), twoDrums(RATE, 4, [at(5)]));
    // more drums than there are places for
    const gain = (db: number): number => 0.5 * 10 ** (Math.min(0, db) / 20);
    const twelve = [-30, -18, -6, 6, 18, 30].flatMap((db) =>
      [LOW, HIGH].map((drum) => ({ ...drum, gainA: gain(-db), gainB: gain(db) })),
    );
    read(RATE, twoDrums(RATE, 1, twelve));
    // noise that hides first pushes
    const kit = twoDrums(RATE, 12);
    const noisy = (x: Float32Array): Float32Array => x.map((v, i) => v + 0.004 * Math.sin(i * i * 0.37));
    read(RATE, { a: noisy(kit.a), b: noisy(kit.b) });
    // unlike microphones, cymbals, less noise, grooves
    for (const seed of [10001, 10002, 10005, 10020]) {
      const { a, b, sampleRate } = renderCase(drawCase(seed));
      read(sampleRate, { a, b });
    }
    // a groove of a pair that was read before
    for (const seed of [10052, 10186]) {
      const made = drawCase(seed);
      const { a, b, sampleRate } = renderCase(made);
      const engine = new Engine(sampleRate, { tuning });
      const [{ delaySamples, polarity }] = truthOf(made) as [DrumTruth];
      engine.expect(delaySamples, polarity === 'same' ? 1 : -1, 2);
      engine.push(a, b);
      engine.flush();
    }
    const { a } = twoDrums(RATE, 4);
    new Engine(RATE, { tuning, settingOffset: true, maxLagMs: 21 }).push(a, a);
    expect([...tuningPaths(), ...tuningParts()].filter((path) => !seen.has(path))).toEqual([]);
  });

  it('reads other drums, or none, accordingly', () => {
    const { a, b } = twoDrums(RATE, 8);
    const read = (changes: Parameters<typeof tuned>[0]): { state: string; drums: number; hits: number } => {
      const engine = new Engine(RATE, { tuning: tuned(changes) });
      engine.push(a, b);
      engine.flush();
      const { drums, hits } = engine.reading();
      return { state: drums.some((drum) => drum.state === 'measured') ? 'measured' : 'not', drums: drums.length, hits };
    };
    expect(read({})).toEqual({ state: 'measured', drums: 2, hits: 16 });
    expect(read({ 'delay.hitsNeeded': 9 }).state).toBe('not');
    expect(read({ 'parts.drumSorting': false }).drums).toBe(1);
    expect(read({ 'hit.detector.refractorySeconds': 1.9 }).hits).toBeLessThan(8);
  });
});
