/** What is likely is no answer where the low end of most hits begins elsewhere: a kick under a hi-hat that comes with its strokes. */
import { describe, expect, it } from 'vitest';
import { Decision } from '../../../../src/dsp/delay/decision';
import type { Likelihood } from '../../../../src/dsp/delay/likely/likelihood';
import { TUNING, type Tuning } from '../../../../src/dsp/tuning';
import { tuned } from '../../../../src/dsp/tuning/tuned';
import { POOL_HITS } from '../../../../src/reading/limits';
import { fitOf, type MadeHit, NO_PUSH, poolOf, RATE, samplesOf, stackOf } from '../../../support/rules/rules';

const HAT_US = -1000;
/** so far from the hi-hat's that it can't be of the same source */
const KICK_US = HAT_US + TUNING.delay.likely.deep.apartSeconds * 1e6 + 100;

const CLOSE = TUNING.delay.likely.deep.close;
/** another source, where the low ends agree closely */
const CLOSE_US = HAT_US + CLOSE.apartSeconds * 1e6 + 100;
/** µs between one hit's low end and the next one's: close agreement, and loose */
const CLOSELY = 5;
const LOOSELY = 40;

/** Eight hits with these first pushes in the low end, NaN: none; something high came before each. */
const hitsOf = (lowUs: readonly number[], sign = 1): MadeHit[] =>
  lowUs.map((us) => ({ ...NO_PUSH, lowUs: us, lowSign: Number.isNaN(us) ? 0 : sign, lowAlone: false, highLed: true }));
const eight = (us: number, n = 8, step = LOOSELY, sign = 1): MadeHit[] =>
  hitsOf(
    Array.from({ length: 8 }, (_, i) => (i < n ? us + step * i : Number.NaN)),
    sign,
  );

function answer(hits: readonly MadeHit[], tuning: Tuning = TUNING): { sign: number; delayUs: number } {
  const { store, pool } = poolOf(hits, false, 0, tuning);
  const decision = new Decision(RATE, tuning);
  decision.decide(store, pool, fitOf(), stackOf());
  expect(decision.open(pool)).toBe(true);
  const likely = {
    sign: 1,
    delay: samplesOf(HAT_US),
    probability: 0.97,
    members: 7,
    change: 0,
    spread: 0.5,
    apart: 0,
    shows: new Uint8Array(POOL_HITS).fill(1, 0, 7),
    shownAt: new Float64Array(POOL_HITS).fill(samplesOf(HAT_US)),
  } as unknown as Likelihood;
  decision.weigh(store, pool, likely);
  return { sign: decision.sign, delayUs: (decision.delay / RATE) * 1e6 };
}
const stands = (hits: readonly MadeHit[], tuning?: Tuning): boolean => answer(hits, tuning).sign !== 0;

describe('what is likely', () => {
  it('is an answer where no low end begins', () => {
    const { sign, delayUs } = answer(eight(Number.NaN, 0));
    expect(sign).toBe(1);
    expect(delayUs).toBeCloseTo(HAT_US, 6);
  });

  it('is none where the low end of all hits begins elsewhere', () => {
    expect(stands(eight(KICK_US))).toBe(false);
    expect(stands(eight(2 * HAT_US - KICK_US - 7 * LOOSELY))).toBe(false);
  });

  it('is none where they begin nearer by, if they agree closely', () => {
    expect(stands(eight(CLOSE_US, 8, CLOSELY))).toBe(false);
    expect(stands(eight(CLOSE_US, 5, CLOSELY))).toBe(false);
    expect(stands(eight(CLOSE_US, 4, CLOSELY))).toBe(true);
    expect(stands(eight(CLOSE_US))).toBe(true);
  });

  it('is none where they agree closely and push the other way', () => {
    expect(stands(eight(HAT_US + 50, 8, CLOSELY))).toBe(true);
    expect(stands(eight(HAT_US + 50, 8, CLOSELY, -1))).toBe(false);
  });

  it('is one where it begins near by: the low end rises slowly', () => {
    expect(stands(eight(HAT_US + 100, 8, CLOSELY))).toBe(true);
  });

  it('is none by four of the hits, and one by three', () => {
    expect(stands(eight(KICK_US, 4))).toBe(false);
    expect(stands(eight(KICK_US, 3))).toBe(true);
  });

  it('is one where the low ends begin anywhere', () => {
    expect(stands(hitsOf([0, 400, 900, 1500, 2200, 3000, 3900, 4900]))).toBe(true);
  });

  it('is one with that part off', () => {
    expect(stands(eight(KICK_US), tuned({ 'parts.deepPushes': false }))).toBe(true);
  });
});
