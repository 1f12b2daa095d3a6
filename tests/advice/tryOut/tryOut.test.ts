/** What is tried by hand, on readings made of one delay and one polarity (tests/advice/readings): there the sum can be told in closed form. */
import { describe, expect, it } from 'vitest';
import { plan } from '../../../src/advice/plan/plan';
import { moveCurve, spotsOf } from '../../../src/advice/tryOut/moveCurve';
import { NOTHING_TRIED, type Tried } from '../../../src/advice/tryOut/tried';
import { tryOut } from '../../../src/advice/tryOut/tryOut';
import { BANDS } from '../../../src/reading/bands';
import { measured, NO_SUM, reading, sumOf, tryable, turnedOver } from '../readings';

const here = { invertB: false, temperatureC: 20 };
const tried = (fields: Partial<Tried>): Tried => ({ ...NOTHING_TRIED, ...fields });
/** m/s at 20 °C by the ideal gas */
const SPEED = 331.3 * Math.sqrt(293.15 / 273.15);
/** mean of cos(2πfτ) over a band on a logarithmic scale, as the readings are made */
const bandMean = (lowHz: number, highHz: number, tau: number): number => {
  let sum = 0;
  for (let i = 0; i < 60; i++) sum += Math.cos(2 * Math.PI * lowHz * (highHz / lowHz) ** ((i + 0.5) / 60) * tau);
  return sum / 60;
};
const db = (re: number): number => 10 * Math.log10(1 + re);

describe('what is tried', () => {
  it.each([-60, -17.3, -2.4, 0.1, 8, 33.3, 60])('a move of %s cm: every band as the delay makes it', (moveCm) => {
    const r = tryable('same', 10);
    const sums = tryOut(r, here, tried({ moveCm }));
    const tau = (0.1 - moveCm / 100) / SPEED;
    for (const [i, { lowHz, highHz }] of BANDS.entries()) {
      const [re, now] = [tau, 0.1 / SPEED].map((t) => 0.9 * bandMean(lowHz, highHz, t)) as [number, number];
      expect(sums.bands[i]?.triedDb).toBeCloseTo(db(re), 1);
      expect(sums.bands[i]?.gainDb).toBeCloseTo(db(re) - db(now), 1);
    }
  });

  it('is what the plan says of each of its alternatives, with the meter’s invert on as well', () => {
    const readings = [
      tryable('same', 12),
      tryable('inverted', -8),
      tryable('inverted', 22),
      measured('same', 6, sumOf({ here: true, polarity: 'inverted', delaySamples: 20, nearSamples: 8.4 })),
      reading({
        ...sumOf({ here: true, polarity: 'inverted', delaySamples: 9, nearSamples: null }),
        state: 'unclear',
        reason: 'hits-disagree',
        hits: 8,
      }),
    ];
    // a room's delay, far beyond what a hand moves
    const rooms = [tryable('inverted', 180)];
    let checked = 0;
    for (const r of [...readings, ...rooms])
      for (const [shown, invertB] of [[r, false] as const, [turnedOver(r), true] as const]) {
        const made = plan(shown, { kind: rooms.includes(r) ? 'close-room' : 'same-side', temperatureC: 20, invertB });
        if (made.type !== 'answer') throw new Error(`no plan: ${made.type}`);
        for (const { lowDb, allDb, bandsDb, ...action } of made.alternatives) {
          const sums = tryOut(shown, { invertB, temperatureC: 20 }, { ...action, trimDb: 0 });
          expect(sums.low.gainDb).toBeCloseTo(lowDb as number, 9);
          expect(sums.all.gainDb).toBeCloseTo(allDb as number, 9);
          for (const [i, gain] of bandsDb.entries()) expect(sums.bands[i]?.gainDb).toBeCloseTo(gain as number, 9);
          checked++;
        }
      }
    expect(checked).toBeGreaterThan(20);
  });

  it('a trim leaves less of what the two have in common, louder or softer alike', () => {
    const r = tryable('same', 0);
    for (const trimDb of [-12, -6, 3.5, 12]) {
      const g = 10 ** (trimDb / 20);
      const { triedDb, gainDb } = tryOut(r, here, tried({ trimDb })).all;
      expect(triedDb).toBeCloseTo(db(((2 * g) / (1 + g * g)) * 0.9), 6);
      expect(gainDb).toBeLessThan(0);
      expect(tryOut(r, here, tried({ trimDb: -trimDb })).all.triedDb).toBeCloseTo(triedDb as number, 9);
    }
  });

  it('says what is so thin as tried that only a bound is told; the present is measured, however thin', () => {
    const r = measured('inverted', 0, sumOf({ here: true, polarity: 'inverted', delaySamples: 0, common: 0.95 }));
    expect(tryOut(r, here, tried({ invertB: true })).low.triedDeep).toBe(false);
    expect(tryOut(r, here, NOTHING_TRIED).low).toMatchObject({ triedDeep: false, gainDb: 0 });
    const same = measured('same', 0, sumOf({ here: true, polarity: 'same', delaySamples: 0, common: 0.95 }));
    expect(tryOut(same, here, tried({ invertB: true })).low.triedDeep).toBe(true);
  });

  it('says why a band has no level', () => {
    const none = reading({ ...NO_SUM, state: 'unclear', hits: 6 });
    expect(tryOut(none, here, tried({ moveCm: 3 })).low).toMatchObject({ triedDb: null, why: 'not-carried' });
    const far = tryable('same', 5);
    expect(tryOut(far, here, tried({ delayMs: 9 })).all).toMatchObject({ triedDb: null, why: 'out-of-reach' });
  });
});

describe('the curve and its places', () => {
  it('the arrivals meet where the gap is, with the polarity that has them push the same way', () => {
    expect(spotsOf(tryable('inverted', 8.04), here).aligned).toEqual({ invertB: true, moveCm: 8 });
    // the path as the meter says it, to half a cm
    expect(spotsOf(tryable('same', -3.2), here).aligned).toEqual({ invertB: false, moveCm: -3 });
    // the meter shows B inverted: as it comes in it is the other way
    expect(spotsOf(tryable('same', 5), { ...here, invertB: true }).aligned).toEqual({ invertB: true, moveCm: 5 });
    expect(spotsOf(tryable('same', 61), here)).toMatchObject({ aligned: null, noAligned: 'too-far' });
    const unclear = reading({ ...sumOf({ here: true, polarity: 'same', delaySamples: 9 }), state: 'unclear', hits: 8 });
    expect(spotsOf(unclear, here)).toMatchObject({ aligned: null, noAligned: 'no-arrival' });
  });

  it('the fullest place is where one delay and one polarity have it: at the delay, or where the other polarity comes nearest', () => {
    const r = measured(
      'inverted',
      7,
      sumOf({ here: true, polarity: 'inverted', delaySamples: (0.07 / SPEED) * 48000 }),
    );
    const { low, all } = spotsOf(r, here);
    expect(all.best).toMatchObject({ invertB: true });
    // of what is as full to 0.3 dB the shortest move
    expect(Math.abs((all.best?.moveCm as number) - 6.7)).toBeLessThanOrEqual(1);
    expect(all.asIs).not.toBeNull();
    // at 60–120 Hz a few centimetres make no tenth of a decibel: the shortest way there
    expect(low.best).toMatchObject({ invertB: true });
    expect(low.best?.moveCm).toBeLessThan(7);
  });

  it('a curve is what the try-out says at each of its moves', () => {
    const r = tryable('same', 4);
    const curve = moveCurve(r, here, 5, -3);
    for (const i of [0, 240, 250, 300, 480]) {
      const at = tried({ moveCm: i * 0.25 - 60, trimDb: -3 });
      expect(curve.asIsDb[i]).toBe(tryOut(r, here, at).bands[3]?.triedDb);
      expect(curve.invertedDb[i]).toBe(tryOut(r, here, { ...at, invertB: true }).bands[3]?.triedDb);
    }
  });
});
