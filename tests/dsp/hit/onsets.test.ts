/** Where a hit may begin in a channel, and the delays that two channels' onsets could mean. */
import { describe, expect, it } from 'vitest';
import { HitStore } from '../../../src/dsp/hit/hitStore';
import { OnsetPairs } from '../../../src/dsp/hit/onsetPairs';
import { OnsetPicker, Onsets, PAIRS } from '../../../src/dsp/hit/onsets';
import type { Rings } from '../../../src/dsp/input/inputs';
import { Ring } from '../../../src/dsp/signal/ring';

const RATE = 48_000;
const REACH_MS = 11;

/** A half sine of that height that begins at a frame, and lasts so many. */
interface Push {
  at: number;
  height: number;
  frames?: number;
}

function ringOf(pushes: readonly Push[], frames = 4000): Ring {
  const x = new Float64Array(frames);
  for (const { at, height, frames: long = 40 } of pushes)
    for (let k = 0; k < long; k++) x[at + k] = (x[at + k] as number) + height * Math.sin((Math.PI * (k + 0.5)) / long);
  const ring = new Ring(frames);
  ring.push(x, frames);
  return ring;
}

function picked(pushes: readonly Push[], at = 1000): { frame: number; sign: number }[] {
  const onsets = new Onsets();
  new OnsetPicker(RATE, REACH_MS).pick(ringOf(pushes), at, onsets);
  return Array.from({ length: onsets.count }, (_, i) => ({
    frame: onsets.frame[i] as number,
    sign: onsets.sign[i] as number,
  }));
}

describe('onsets', () => {
  it('a single push has one', () => {
    const [one, ...more] = picked([{ at: 1100, height: 0.5 }]);
    expect(more).toEqual([]);
    expect(one?.sign).toBe(1);
    expect(Math.abs((one?.frame ?? 0) - 1101)).toBeLessThan(2);
  });

  it('a softer stroke before the drum has its own, and so has the drum', () => {
    const found = picked([
      { at: 900, height: -0.05, frames: 20 },
      { at: 1150, height: 0.5 },
    ]);
    expect(found.map(({ sign }) => sign)).toEqual([-1, 1]);
    expect(Math.abs((found[0]?.frame ?? 0) - 900)).toBeLessThan(3);
    expect(Math.abs((found[1]?.frame ?? 0) - 1151)).toBeLessThan(3);
  });

  it('what is shorter than a push, too quiet, or out of reach is none', () => {
    expect(picked([{ at: 1100, height: 0.5, frames: 3 }])).toEqual([]);
    expect(picked([{ at: 1100, height: 1e-6 }])).toEqual([]);
    expect(picked([{ at: 1000 + (REACH_MS + 4) * 48, height: 0.5 }])).toEqual([]);
  });

  it('the stroke that comes more than 4 ms before is another hit’s', () => {
    const found = picked([
      { at: 700, height: -0.3, frames: 20 },
      { at: 1150, height: 0.5 },
    ]);
    expect(found.map(({ sign }) => sign)).toEqual([1]);
  });
});

describe('the delays that a hit’s onsets could mean', () => {
  const none = { found: false, frame: Number.NaN, sign: 0 };
  function pairs(a: readonly Push[], b: readonly Push[], firstA = none, firstB = none): { at: number; sign: number }[] {
    const rings = { pickA: ringOf(a), pickB: ringOf(b) } as unknown as Rings;
    const maker = new OnsetPairs(RATE, REACH_MS, rings);
    const store = new HitStore();
    const slot = store.add(1000);
    maker.look(1000, firstA, firstB);
    maker.write(store, slot, firstA, firstB);
    return Array.from({ length: store.pairs[slot] as number }, (_, q) => ({
      at: store.pairDelay[slot * PAIRS + q] as number,
      sign: store.pairSign[slot * PAIRS + q] as number,
    }));
  }

  it('are all pairs, the first pushes’ at the head, none twice', () => {
    const a = [{ at: 1000, height: 0.5 }];
    const b = [
      { at: 950, height: -0.05, frames: 20 },
      { at: 1120, height: 0.4 },
    ];
    const found = pairs(a, b, { found: true, frame: 1001, sign: 1 }, { found: true, frame: 950, sign: -1 });
    expect(found[0]).toEqual({ at: -51, sign: -1 });
    expect(found).toHaveLength(2);
    expect(Math.abs((found[1]?.at ?? 0) - 120)).toBeLessThan(2);
    expect(found[1]?.sign).toBe(1);
  });

  it('are none where one channel hears nothing', () => {
    expect(pairs([{ at: 1000, height: 0.5 }], [])).toEqual([]);
  });

  it('are no more than there is room for', () => {
    const many = Array.from({ length: 6 }, (_, i) => ({
      at: 960 + 75 * i,
      height: (i % 2 ? -1 : 1) * 0.5 * [0.05, 0.1, 0.2, 0.3, 0.5, 1][i],
      frames: 30,
    })) as Push[];
    const found = pairs(many, many, { found: true, frame: 990, sign: 1 }, { found: true, frame: 1010, sign: 1 });
    expect(found.length).toBeGreaterThan(10);
    expect(found.length).toBeLessThanOrEqual(PAIRS);
  });
});
