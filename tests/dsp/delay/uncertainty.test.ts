import { describe, expect, it } from 'vitest';
import type { AttackFit } from '../../../src/dsp/delay/attackFit';
import { Pool } from '../../../src/dsp/delay/pool';
import { pushesBent, uncertaintyOf } from '../../../src/dsp/delay/uncertainty';
import { HitStore } from '../../../src/dsp/hit/hitStore';

const RATE = 48000;

/** A pool of eight hits with these tilts of both channels, dB, and this difference of rises, samples. */
function hits(tiltA: number, tiltB: number, rise: number): { store: HitStore; pool: Pool } {
  const store = new HitStore();
  const pool = new Pool(RATE);
  pool.drumHits = 8;
  for (let i = 0; i < 8; i++) {
    const s = store.add(1000 * i);
    pool.drumSlots[i] = s;
    store.tiltA[s] = tiltA;
    store.tiltB[s] = tiltB;
    store.riseDifference[s] = rise;
  }
  return { store, pool };
}

const fitAt = (delay: number, sign: number, agree = 1, runnerUp = 0.1): AttackFit =>
  ({ delay, sign, agree, runnerUp }) as AttackFit;

const answer = { delay: 50, sign: 1, spread: 0.5, members: 8 };

describe('the uncertainty of an answer', () => {
  const { store, pool } = hits(0, 0, 0);
  const at = (fit: AttackFit, noise = 0): number => uncertaintyOf(RATE, store, pool, fit, answer, noise);

  it('is never less than a pick can know: 23 µs', () => {
    expect(at(fitAt(50, 1))).toBeGreaterThan(0.00002 * RATE - 0.1);
    expect(at(fitAt(50, 1))).toBeLessThan(0.00003 * RATE);
  });

  it('reaches from the first push beyond the best fit of the attacks, even on a neighbouring swing', () => {
    for (const apart of [2, 5, 18]) {
      expect(at(fitAt(50 + apart, 1))).toBeGreaterThan(apart);
      expect(at(fitAt(50 - apart, 1))).toBeCloseTo(at(fitAt(50 + apart, 1)), 9);
    }
  });

  it('is unknown where the best fit goes the other way or lies far off', () => {
    expect(at(fitAt(50, -1))).toBeNaN();
    expect(at(fitAt(50 + 0.0006 * RATE, 1))).toBeNaN();
    expect(at(fitAt(Number.NaN, 0))).toBeNaN();
  });

  it('grows with what noise may do, with unlike rises and with unlike tops', () => {
    const plain = at(fitAt(50, 1));
    expect(at(fitAt(50, 1), 4)).toBeCloseTo(Math.hypot(plain, 4), 9);
    for (const unlike of [hits(0, 0, 20), hits(0, 20, 0), hits(20, 0, 0)])
      expect(uncertaintyOf(RATE, unlike.store, unlike.pool, fitAt(50, 1), answer, 0)).toBeGreaterThan(plain + 0.5);
  });
});

describe('first pushes bent by unlike microphones', () => {
  const like = hits(3, 0, 0);
  const dull = hits(12, 0, 0);
  const bent = (h: typeof like, fit: AttackFit): boolean => pushesBent(RATE, h.store, h.pool, fit, 50);

  it('show when one has much less top and a convincing fit lies off', () => {
    expect(bent(dull, fitAt(56, 1))).toBe(true);
    expect(bent(dull, fitAt(44, 1))).toBe(true);
  });

  it('do not show between like microphones, near the fit, or by a fit that has a rival', () => {
    expect(bent(like, fitAt(56, 1))).toBe(false);
    expect(bent(dull, fitAt(52, 1))).toBe(false);
    expect(bent(dull, fitAt(56, 1, 1, 0.5))).toBe(false);
    expect(bent(dull, fitAt(56, 1, 0.6))).toBe(false);
  });
});
