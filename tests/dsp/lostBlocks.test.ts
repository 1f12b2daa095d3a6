/** Blocks that never arrive: no delay of their joints, no hit across a gap, whenever the gap is noticed. */
import { describe, expect, it } from 'vitest';
import { Engine } from '../../src/dsp/engine';
import { type Flat, flat } from '../support/readings/flat';
import { CAPTURE_RATE, hits, later } from '../support/sound/signals';
import { throughSlowThread } from '../support/sound/slowThread';
import { struckPair } from '../support/sound/struckPair';

const RATE = 48000;
/** 7 cm at 44.1 kHz */
const LAG = 9;

describe('a thread that takes 6–12 ms for a block', () => {
  it.each([
    [441, [6, 12]],
    [441, [12, 12.1]],
    [1024, [12, 12.1]],
    [1024, [6, 12]],
  ] as const)(
    'blocks of %d frames, %j ms: never certain of another delay than the pair’s own',
    (deviceFrames, quantumMs) => {
      const a = hits(40, 0.6, 1);
      const joined = throughSlowThread(a, later(a, LAG, -0.7), { quantumMs, deviceFrames });
      expect(joined.joints.length).toBeGreaterThan(100);
      const engine = new Engine(CAPTURE_RATE);
      const wrong: unknown[] = [];
      for (let at = 0; at < joined.a.length; at += 1280) {
        engine.push(joined.a.subarray(at, at + 1280), joined.b.subarray(at, at + 1280));
        const { state, polarity, delaySamples, hitsUsed, hitsPooled } = flat(engine.reading());
        if (state !== 'measured') continue;
        const right = polarity === 'inverted' && Math.abs((delaySamples as number) - LAG) < 1.5;
        if (!right) wrong.push({ polarity, delaySamples, hitsUsed, hitsPooled });
      }
      expect(wrong).toEqual([]);
    },
  );
});

describe('a loss that is told', () => {
  const pair = struckPair({ sampleRate: RATE, hits: 12, delaySamples: 20, polarity: 'same', tailSeconds: 2 });
  /** hits at 0.4, 0.9, 1.4 … s */
  const until = (engine: Engine, fromSeconds: number, toSeconds: number): Flat => {
    const [from, to] = [Math.round(fromSeconds * RATE), Math.round(toSeconds * RATE)];
    for (let at = from; at < to; at += 100)
      engine.push(pair.a.subarray(at, Math.min(to, at + 100)), pair.b.subarray(at, Math.min(to, at + 100)));
    return flat(engine.reading());
  };
  const dropped = (r: Flat): number[] =>
    r.perHit.filter(({ fate }) => fate === 'dropped-audio').map(({ serial }) => serial);

  it('a second later voids the hits of that second, and none before', () => {
    const engine = new Engine(RATE);
    expect(until(engine, 0, 4.2)).toMatchObject({ state: 'measured', hits: 8, hitsUsed: 8 });
    engine.lost(1 * RATE);
    const after = until(engine, 4.2, 4.25);
    expect(dropped(after)).toEqual([7, 8]);
    expect(after).toMatchObject({ state: 'measured', polarity: 'same', hits: 8, hitsUsed: 6, hitsPooled: 6 });
    expect(after.delaySamples).toBeCloseTo(20, 0);
    // those that come go on counting
    expect(until(engine, 4.25, 6.3)).toMatchObject({ hits: 12, hitsUsed: 10 });
  });

  it('just now voids the hit that is under way, and the next one where its own stretch begins before', () => {
    const engine = new Engine(RATE);
    until(engine, 0, 3.5);
    // the hit at 3.4 s is still coming in
    engine.lost(0);
    until(engine, 3.5, 3.8);
    // that at 3.9 s begins 0.1 s later
    engine.lost(0);
    const after = until(engine, 3.8, 5.3);
    expect(dropped(after)).toEqual([7, 8]);
    expect(after).toMatchObject({ state: 'measured', hits: 10, hitsUsed: 8 });
  });

  it('takes a drum away that has no other hits, and everything goes on', () => {
    const engine = new Engine(RATE);
    until(engine, 0, 1.2);
    engine.lost(2 * RATE);
    const after = until(engine, 1.2, 1.25);
    expect([after.state, after.drums.length, after.drum, dropped(after)]).toEqual(['listening', 0, null, [1, 2]]);
    expect(until(engine, 1.25, 6.3)).toMatchObject({ state: 'measured', hits: 12, hitsUsed: 10 });
  });

  it('shows in the trace for a moment', () => {
    const engine = new Engine(RATE);
    expect(until(engine, 0, 2).gap).toBe(false);
    engine.lost(RATE);
    expect(until(engine, 2, 2.05).gap).toBe(true);
    expect(until(engine, 2.05, 2.2).gap).toBe(false);
  });

  it('voids what an offset was measured from', () => {
    const same = struckPair({ sampleRate: RATE, hits: 8, delaySamples: 5, polarity: 'same' });
    const engine = new Engine(RATE, { settingOffset: true, maxLagMs: 25 });
    engine.push(same.a, same.b);
    const before = engine.reading().gauge;
    expect(before).toMatchObject({ hits: 8, agreeing: 8 });
    engine.lost(1.1 * RATE);
    const after = engine.reading().gauge;
    expect(after?.hits).toBeLessThan(8);
    expect(after?.hits).toBe(after?.agreeing);
    expect(after?.offsetSamples).toBeCloseTo(5, 1);
  });
});

describe('an offset from one source', () => {
  it('clicks that step in both inputs at one sample are its hits', () => {
    const clicks = new Float32Array(6 * RATE);
    for (let hit = 0; hit < 10; hit++)
      for (let i = 0; i < 2000; i++) clicks[RATE / 4 + hit * (RATE / 2) + i] = 0.5 * Math.exp(-i / 300);
    const noisy = clicks.map((x, i) => x + 1e-4 * Math.sin(i * i));
    const engine = new Engine(RATE, { settingOffset: true, maxLagMs: 25 });
    engine.push(
      noisy,
      clicks.map((x, i) => x + 1e-4 * Math.sin(i * i + 1)),
    );
    expect(engine.reading().gauge).toMatchObject({ hits: 10, agreeing: 10 });
  });
});
