/** An answer that was known, in hits where something else comes first: pairs of onsets made by hand. */
import { describe, expect, it } from 'vitest';
import { Known } from '../../../../src/dsp/delay/likely/known';
import type { Pool } from '../../../../src/dsp/delay/pool';
import type { HitStore } from '../../../../src/dsp/hit/hitStore';
import { PAIRS } from '../../../../src/dsp/hit/onsets';
import { TUNING } from '../../../../src/dsp/tuning';
import { tuned } from '../../../../src/dsp/tuning/tuned';
import { poolOf, RATE, samplesOf, usOf } from '../../../support/rules/rules';
import { seeded } from '../../../support/sound/signals';

const AT_US = 2400;
const REACH_US = 11_000;
const { known: RULES } = TUNING.delay.likely;
const random = seeded(9);
const anywhere = (): [number, number] => [(2 * random() - 1) * REACH_US, random() < 0.5 ? 1 : -1];

/** '1': the hit shows `us`, within 10 µs, among `more` pairs that lie anywhere; '0': it has those alone; '-': it shows it with the other sign. */
function hitsOf(order: string, us = AT_US, more = 6): { store: HitStore; pool: Pool } {
  const made = poolOf(
    [...order].map(() => ({ delayUs: Number.NaN })),
    false,
    0,
    tuned({ 'parts.motion': false }),
  );
  [...order].forEach((one, i) => {
    const s = made.store.at(i);
    const pairs: [number, number][] = Array.from({ length: more }, anywhere);
    if (one !== '0') pairs.push([us + (2 * random() - 1) * 10, one === '1' ? -1 : 1]);
    made.store.pairs[s] = pairs.length;
    pairs.forEach(([delayUs, sign], q) => {
      made.store.pairDelay[s * PAIRS + q] = samplesOf(delayUs);
      made.store.pairSign[s * PAIRS + q] = sign;
    });
  });
  return made;
}
function known(us = AT_US): Known {
  const it = new Known(RATE);
  it.keep(samplesOf(us), -1, 2);
  return it;
}
const isConfirmed = (order: string, us?: number): boolean => {
  const { store, pool } = hitsOf(order, us);
  return known().confirmed(store, pool);
};

describe('a known answer', () => {
  it('is confirmed by two hits, and says which, and where they show it', () => {
    const { store, pool } = hitsOf('0011', AT_US + 10);
    const it = known();
    expect(it.confirmed(store, pool)).toBe(true);
    expect([...it.shows.slice(0, 4)]).toEqual([0, 0, 1, 1]);
    expect(it.members).toBe(2);
    expect(Math.abs(usOf(it.shownDelay) - (AT_US + 10))).toBeLessThan(11);
    expect(usOf(it.spread)).toBeLessThan(21);
  });

  it('is not by one, nor where only hits before the newest show it', () => {
    expect(isConfirmed('0001')).toBe(false);
    expect(isConfirmed(`1111${'0'.repeat(RULES.newestHits)}`)).toBe(false);
  });

  it('is not where they show it with the other polarity', () => {
    expect(isConfirmed('00------')).toBe(false);
  });

  it('is not 4 cm off, by as many hits as there are', () => {
    // 4 cm at 343 m/s are 117 µs
    expect(isConfirmed('11111111', AT_US + 117)).toBe(false);
    expect(isConfirmed('11111111', AT_US - 117)).toBe(false);
  });

  it('is next to never confirmed by chance: pairs that lie anywhere, eight hits, 2000 times', () => {
    let times = 0;
    for (let n = 0; n < 2000; n++) if (isConfirmed('00000000')) times++;
    expect(times).toBeLessThanOrEqual(4);
  });

  it('is not while nothing is known, or it was forgotten', () => {
    const { store, pool } = hitsOf('11111111');
    expect(new Known(RATE).confirmed(store, pool)).toBe(false);
    const it = known();
    it.forget();
    expect([it.confirmed(store, pool), it.sign]).toEqual([false, 0]);
  });

  it('is another answer’s equal within 80 µs and with the same sign alone', () => {
    const it = known();
    expect(it.says(samplesOf(AT_US + 79), -1)).toBe(true);
    expect(it.says(samplesOf(AT_US + 81), -1)).toBe(false);
    expect(it.says(samplesOf(AT_US), 1)).toBe(false);
    // nothing known contradicts nothing
    expect(new Known(RATE).says(samplesOf(AT_US), 1)).toBe(true);
  });
});
