/** Simulated takes: the same for the same seed, and as loud and as late in every track as the kit's measures have it. */
import { describe, expect, it, vi } from 'vitest';
import type { Point } from '../../../samples/model/room';
import { TUNING_SEEDS } from '../../cases/case';
import { renderTake } from './renderTake';
import { drawTake, type SimulatedTake } from './simulatedKit';
import { pairTruth, truthOfTake } from './simulatedTruth';

vi.setConfig({ testTimeout: 120_000 });

const SEED = TUNING_SEEDS.from;
/** 331.3·√(1 + 20/273.15) */
const SPEED = 343.2146;
const metres = (p: Point, q: Point): number => Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
const bytes = (x: Float32Array): Buffer => Buffer.from(x.buffer, x.byteOffset, x.byteLength);

/** One click on each drum, no room, microphones that are all alike and hear alike all round. */
function clicks(seed: number): SimulatedTake {
  const made = drawTake(seed, { hits: 1 });
  const { response, at: _at, name: _name, ...channel } = made.microphones[0];
  const heads = made.drums.filter(({ drum }) => drum);
  return {
    ...made,
    seconds: 0.3 + 0.3 * heads.length,
    microphones: made.microphones.map(({ at, name }) => ({
      ...channel,
      response: { ...response, lowCutHz: 20, lowCutOrder: 1 },
      at,
      name,
      aim: null,
      driver: null,
      room: null,
      detours: [],
      noiseDb: Number.NEGATIVE_INFINITY,
      humDb: Number.NEGATIVE_INFINITY,
      dc: 0,
      bits: 24,
      peakDbfs: -3,
    })),
    drums: heads.map((one, d) => {
      const spread = one.spread && { ...one.spread, ownLevel: 0 };
      const drum = one.drum && { ...one.drum, tone: 0, crack: 0, wires: 0, clickSeconds: 0, contactSeconds: 4e-4 };
      const strikes = one.strikes.map((strike) => ({ ...strike, force: 1, timeSeconds: 0.2 + 0.3 * d }));
      return { ...one, drum, spread, strikes, levelDb: 0 };
    }),
  };
}

/** A track from 5 ms before the stroke to 30 ms after it. */
function cut(x: Float32Array, { sampleRate, drums }: SimulatedTake, d: number): Float32Array {
  const at = drums[d].strikes[0].timeSeconds * sampleRate;
  return x.subarray(Math.round(at - 0.005 * sampleRate), Math.round(at + 0.03 * sampleRate));
}

/**
 * The lag at which the plain cross-correlation is largest in size, a parabola through its three highest points (the delay's
 * maximum-likelihood estimate for one sound in white noise: C. H. Knapp, G. C. Carter, IEEE Trans. ASSP 24 (1976) 320; not seen).
 */
function lagOf(a: Float32Array, b: Float32Array): { samples: number; sign: number } {
  const at = (lag: number): number => {
    let sum = 0;
    for (let i = Math.max(0, -lag); i < Math.min(a.length, b.length - lag); i++) sum += a[i] * b[i + lag];
    return sum;
  };
  let best = 0;
  for (let lag = -900; lag <= 900; lag++) if (Math.abs(at(lag)) > Math.abs(at(best))) best = lag;
  const [p, q, r] = [best - 1, best, best + 1].map((lag) => Math.abs(at(lag)));
  return { samples: best + (p - r) / (2 * (p - 2 * q + r)), sign: Math.sign(at(best)) };
}

describe('a seed', () => {
  it('gives one kit and one sound of it, another seed another', () => {
    const short = (seed: number): SimulatedTake => {
      const made = drawTake(seed, { hits: 1 });
      return { ...made, seconds: 3, microphones: made.microphones.slice(0, 3) };
    };
    expect(drawTake(SEED, { groove: true })).toEqual(drawTake(SEED, { groove: true }));
    expect(drawTake(SEED + 1).microphones[0].at).not.toEqual(drawTake(SEED).microphones[0].at);
    const [once, again] = [renderTake(short(SEED)), renderTake(short(SEED))];
    expect(once.map((x, t) => Buffer.compare(bytes(x), bytes(again[t])))).toEqual([0, 0, 0]);
    expect(Buffer.compare(bytes(once[0]), bytes(once[1]))).not.toBe(0);
  });

  it('has fourteen microphones, seven drums and metals struck ten times each, and more of them with a groove', () => {
    const made = drawTake(SEED);
    expect(made.microphones.length).toBe(14);
    expect(made.drums.map(({ strikes }) => strikes.length)).toEqual(Array(7).fill(10));
    const struck = (take: SimulatedTake): number => truthOfTake(take).hits.length;
    expect(struck(drawTake(SEED, { groove: true }))).toBeGreaterThan(100);
  });
});

describe('a click on each drum', () => {
  const made = clicks(SEED);
  const tracks = renderTake(made);
  const truth = truthOfTake(made);

  it('comes to each pair of microphones as much later as its path is longer, by the cross-correlation', () => {
    let pairs = 0;
    made.drums.forEach(({ strikes: [{ place }] }, d) => {
      const pieces = tracks.map((x) => cut(x, made, d));
      made.microphones.forEach((a, p) => {
        for (const q of [p + 1, p + 5].filter((t) => t < tracks.length)) {
          const b = made.microphones[q];
          const path = metres(b.at, place) - metres(a.at, place);
          const { samples, sign } = lagOf(pieces[p], pieces[q]);
          const told = pairTruth(truth.drums[d], p, q);
          expect(told.delaySamples).toBeCloseTo((path / SPEED) * made.sampleRate, 2);
          expect(Math.abs(samples - told.delaySamples)).toBeLessThan(0.1);
          expect(sign).toBe(told.polarity === 'same' ? 1 : -1);
          pairs++;
        }
      });
    });
    expect(pairs).toBe(5 * 22);
  });

  it('is as loud as 1/r in each track, of five drums made alike', () => {
    const [{ drum }] = made.drums;
    const alike: SimulatedTake = {
      ...made,
      drums: made.drums.map((one) => ({ ...one, drum: drum && one.drum && { ...drum, head: one.drum.head } })),
    };
    for (const [t, x] of renderTake(alike).entries()) {
      const products = alike.drums.map(({ strikes: [{ place }] }, d) => {
        const peak = cut(x, alike, d).reduce((most, v) => Math.max(most, Math.abs(v)), 0);
        return peak * metres(alike.microphones[t].at, place);
      });
      // where between two samples the peak lies makes a hundredth
      for (const product of products) expect(Math.abs(product / products[0] - 1)).toBeLessThan(0.02);
    }
  });

  it('pushes first as the air is pushed: away from microphones on the batter head’s side, towards those beyond it', () => {
    const signs = (drum: string): Record<string, number> => {
      const d = made.drums.findIndex(({ id }) => id === drum);
      return Object.fromEntries(
        tracks.map((x, t) => {
          const piece = cut(x, made, d);
          const peak = piece.reduce((most, v) => Math.max(most, Math.abs(v)), 0);
          return [made.microphones[t].name, Math.sign(piece.find((v) => Math.abs(v) > 0.2 * peak) as number)];
        }),
      );
    };
    expect(signs('kick')).toMatchObject({
      '01 Kick In': 1,
      '02 Kick Out': 1,
      '12 Room Left': 1,
      '10 Overhead Left': -1,
    });
    expect(signs('snare')).toMatchObject({ '03 Snare Top': -1, '04 Snare Bottom': 1, '11 Overhead Right': -1 });
    expect(signs('floor tom')).toMatchObject({ '07 Floor Tom': -1, '10 Overhead Left': -1, '02 Kick Out': -1 });
    for (const { drum, signs: told } of truth.drums) {
      expect(Object.values(signs(drum))).toEqual(told);
    }
  });

  it('is softer from beside a cardioid: (1 + cos)/2 of the front', () => {
    const [{ place }] = made.drums[1].strikes;
    const { at, ...microphone } = made.microphones[9];
    const [kick, snare] = made.drums.map((one) => ({ ...one, sides: [one.sides[9]], turns: [one.turns[9]] }));
    // one click straight below, which is what the track's level is made by, and the snare's
    const below: Point = [at[0], at[1], at[2] - 0.1];
    const drums = [{ ...kick, strikes: [{ ...kick.strikes[0], place: below }] }, snare];
    const snareHeard = (aim: Point | null): number => {
      const one = { ...made, microphones: [{ ...microphone, at, aim }], drums };
      const [x] = renderTake(one);
      const [loud, soft] = [0, 1].map((d) => cut(x, one, d).reduce((most, v) => Math.max(most, Math.abs(v)), 0));
      return soft / loud;
    };
    const towards = place.map((v, i) => v - at[i]);
    const cos = -towards[2] / Math.hypot(...towards);
    expect(snareHeard(below) / snareHeard(null)).toBeCloseTo((1 + cos) / 2, 2);
  });
});
