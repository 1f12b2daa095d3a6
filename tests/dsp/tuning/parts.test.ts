/** Parts of the engine that are switched off do what their switches say, and what is left runs on. */
import { describe, expect, it } from 'vitest';
import { Engine } from '../../../src/dsp/engine';
import { tuned, tuningParts } from '../../../src/dsp/tuning/tuned';
import type { Reading } from '../../../src/reading/reading';
import { drawCase } from '../../cases/drawCase';
import { renderCase } from '../../cases/renderCase';
import { Sorting } from '../../support/rules/drumRules';
import { decisionOf, type MadeFit, type MadeHit, NO_PUSH, poolOf, times, twice } from '../../support/rules/rules';
import { HIGH, LOW, type StruckDrum, twoDrums } from '../../support/sound/twoDrums';

const RATE = 48000;
const without = (part: string) => tuned({ [`parts.${part}`]: false });

interface Row {
  part: string;
  name: string;
  hits: readonly MadeHit[];
  fit?: MadeFit;
  on: string | null;
  off: string | null;
}

const hidden: MadeHit = { hidden: true };
const dull = { tiltA: 12 };
const ROWS: Row[] = [
  {
    part: 'contradictions',
    name: 'sure waveforms beyond 0.3 ms',
    hits: times(8, { waveUs: 1310 }),
    on: null,
    off: 'first-arrival',
  },
  {
    part: 'hiddenPushes',
    name: 'first pushes that noise may hide',
    hits: times(8, hidden),
    on: null,
    off: 'first-arrival',
  },
  {
    part: 'waveform',
    name: 'clear waveforms where no push can be seen',
    hits: times(8, { ...NO_PUSH, waveUs: 1000 }),
    fit: { atUs: 1000 },
    on: 'waveform',
    off: null,
  },
  {
    part: 'lowAnswer',
    name: 'pushes of the low end alone',
    hits: times(8, { ...NO_PUSH, lowUs: 1000 }),
    fit: { atUs: 1000 },
    on: 'low-band',
    off: null,
  },
  {
    part: 'bentPushes',
    name: 'unlike tops and a convincing fit 0.1 ms off',
    hits: times(8, dull),
    fit: { atUs: 1100 },
    on: null,
    off: 'first-arrival',
  },
  { part: 'unlikeChannels', name: 'unlike tops and no fit', hits: times(8, dull), on: null, off: 'first-arrival' },
];

describe('a part that is off', () => {
  it.each(ROWS)('$part: $name, on: $on, off: $off', ({ part, hits, fit, on, off }) => {
    const heard = fit ? { hits, fit } : { hits };
    expect(decisionOf(heard).method).toBe(on);
    expect(decisionOf({ ...heard, tuning: without(part) }).method).toBe(off);
  });

  it('stack: hits aren’t averaged', () => {
    const hits = times(8, hidden);
    expect(poolOf(hits).pool.wantsStack).toBe(true);
    expect(poolOf(hits, false, 0, without('stack')).pool.wantsStack).toBe(false);
  });

  it('motion: nothing is let go, nothing is followed', () => {
    const hits = [...times(8), ...times(4, { delayUs: 1500 })];
    const on = poolOf(hits).pool;
    const off = poolOf(hits, false, 0, without('motion')).pool;
    expect([on.oldUpTo > 0, off.oldUpTo]).toEqual([true, 0]);
    expect([on.drumHits < 12, off.drumHits, off.steady]).toEqual([true, 12, true]);
  });

  const prints = [twice([-20, -20, -40, -60, -20, -20, -40, -60]), twice([-60, -40, -20, -20, -60, -40, -20, -20])];
  const unlike = times(6).map((hit, i): MadeHit => ({ ...hit, print: prints[i % 2] as number[] }));
  it('drumSorting: all hits are one drum’s', () => {
    expect(new Set(new Sorting().strikeAll(unlike)).size).toBe(2);
    expect(new Sorting(without('drumSorting')).strikeAll(unlike)).toEqual([1, 1, 1, 1, 1, 1]);
    const clipped = { ...(unlike[0] as MadeHit), clipped: 1 };
    expect(new Sorting(without('drumSorting')).strike(clipped)).toBe(0);
  });

  const inTurn = times(12).map((hit, i): MadeHit => ({ ...hit, lowUs: i % 2 ? 1000 : 2000 }));
  it('twoDelays: two drums that sound alike stay one', () => {
    const drums = (sorting: Sorting): number => {
      sorting.strikeAll(inTurn);
      return new Set(inTurn.map((_, i) => sorting.idOf(i + 1))).size;
    };
    expect(drums(new Sorting())).toBe(2);
    expect(drums(new Sorting(without('twoDelays')))).toBe(1);
  });
});

function read(part: string | null, { a, b }: { a: Float32Array; b: Float32Array }): Reading {
  const engine = new Engine(RATE, part === null ? {} : { tuning: without(part) });
  engine.push(a, b);
  engine.flush();
  return engine.reading();
}

describe('an engine without a part', () => {
  const kit = twoDrums(RATE, 12);

  it('attackFit: answers, but doesn’t know how sure it is', () => {
    const told = (r: Reading) =>
      r.drums.flatMap((drum) => (drum.state === 'measured' ? [drum.uncertaintySamples !== null] : []));
    expect(told(read(null, kit))).toEqual([true, true]);
    expect(told(read('attackFit', kit))).toEqual([false, false]);
  });

  it('lowPush: doesn’t part drums that sound alike', () => {
    const at = (delaySamples: number): StruckDrum => ({ ...LOW, delaySamples });
    const alike = twoDrums(RATE, 12, [at(40), at(-30)]);
    expect(read(null, alike).drums.filter((drum) => drum.state === 'measured')).toHaveLength(2);
    expect(read('lowPush', alike).drums).toHaveLength(1);
  });

  it('twoDrums: counts hits that a cymbal began as the drum’s', () => {
    const { a, b } = renderCase(drawCase(11273));
    const covered = (r: Reading): number => r.perHit.filter((hit) => hit.fate === 'two-drums').length;
    expect(covered(read(null, { a, b }))).toBeGreaterThan(0);
    expect(covered(read('twoDrums', { a, b }))).toBe(0);
  });

  it.each(tuningParts().map((path) => [path.replace('parts.', '')]))(
    '%s: runs on, in noise and over a move',
    (part) => {
      const noisy = (x: Float32Array): Float32Array => x.map((v, i) => v + 0.004 * Math.sin(i * i * 0.37));
      const moved = twoDrums(RATE, 8, [HIGH, { ...LOW, delaySamples: 50 }]);
      const engine = new Engine(RATE, { tuning: without(part) });
      const out = new Float64Array(engine.frameLength);
      for (const { a, b } of [twoDrums(RATE, 6), moved, { a: noisy(moved.a), b: noisy(moved.b) }])
        for (let i = 0; i < a.length; i += 4800) {
          engine.push(a.subarray(i, i + 4800), b.subarray(i, i + 4800));
          engine.writeFrame(out);
          // NaN is no value; anything else is a number
          expect(out.every((x) => x !== Number.POSITIVE_INFINITY && x !== Number.NEGATIVE_INFINITY)).toBe(true);
          for (const drum of engine.reading().drums)
            if (drum.state === 'measured') expect(Number.isFinite(drum.delaySamples)).toBe(true);
        }
      engine.flush();
      engine.rehearse(3);
      expect(engine.reading().drums.some((drum) => drum.hits > 0)).toBe(true);
    },
  );
});
