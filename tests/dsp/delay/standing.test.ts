/** What a drum's answer keeps from hit to hit. DEVELOPERS, "How an answer comes about", 9 and 10. */
import { describe, expect, it } from 'vitest';
import { Standing } from '../../../src/dsp/delay/standing';
import { PAIRS } from '../../../src/dsp/hit/onsets';
import { METHOD } from '../../../src/reading/codes';
import { named } from '../../support/rules/named';
import {
  decided,
  decisionAnew,
  type MadeFit,
  type MadeHit,
  NO_PUSH,
  poolOf,
  RATE,
  samplesOf,
  times,
  usOf,
} from '../../support/rules/rules';

/** Drum hits one by one, each with the best fit that stands then; what is said after each. */
function said(hits: readonly MadeHit[], fits: readonly MadeFit[] = [{ atUs: 1000 }]) {
  const { store, pool, next } = poolOf([]);
  const decision = decisionAnew();
  const standing = new Standing(RATE);
  return hits.map((hit, i) => {
    next(hit);
    decided(store, pool, fits[i % fits.length], undefined, decision);
    standing.amend(store, pool, decision);
    const { sign, delay, uncertainty, members, drumHits, contradiction } = decision;
    return { sign, delayUs: usOf(delay), plusMinusUs: usOf(uncertainty), members, drumHits, contradiction };
  });
}
const last = (hits: readonly MadeHit[], fits?: readonly MadeFit[]) => said(hits, fits).at(-1);

describe('an answer that stood', () => {
  it('stays while six of ten hits say it', () => {
    const [six, seven] = said([...times(6), ...times(5, NO_PUSH)]).slice(-2);
    expect(six).toMatchObject({ sign: 1, members: 6, drumHits: 10 });
    expect(six?.delayUs).toBeCloseTo(1000, 6);
    expect(seven?.sign).toBe(0);
  });

  it('is none where it never stood, though as many say it, nor comes back so once it is gone', () => {
    expect(last([...times(4, NO_PUSH), ...times(6)])?.sign).toBe(0);
    const gone = [...times(6), ...times(5, NO_PUSH)];
    expect(last([...gone, ...times(4)])).toMatchObject({ sign: 0, members: 10, drumHits: 15 });
  });

  it.each(
    named<{ name: string; hits: MadeHit[]; stands: boolean }>([
      { name: 'that can’t be read', hits: [NO_PUSH], stands: true },
      { name: 'of the other polarity at its place', hits: [{ sign: -1 }], stands: true },
      { name: '80 µs off', hits: [{ delayUs: 1079 }], stands: true },
      { name: 'elsewhere', hits: [{ delayUs: 1200 }], stands: false },
    ]),
  )('meets a hit $name', (_, { hits, stands }) => {
    const [newest] = said([...times(6), ...times(3, NO_PUSH), ...hits]).slice(-1);
    expect(newest?.sign !== 0).toBe(stands);
  });

  it('stays although a hit lay elsewhere a while ago', () => {
    const hits = [...times(6), { delayUs: 1200 }, ...times(4), ...times(5, NO_PUSH)];
    expect(last(hits)).toMatchObject({ sign: 1, members: 10, drumHits: 16 });
    const later = [...times(7), { delayUs: 1200 }, ...times(3), ...times(5, NO_PUSH)];
    expect(last(later)).toMatchObject({ sign: 0, drumHits: 16 });
  });

  it('ends at once where two witnesses contradict each other', () => {
    const wave = (us: number): MadeHit => ({ ...NO_PUSH, waveUs: us });
    const without = (hit: MadeHit): number | undefined => last([...times(6), ...times(4, hit)])?.sign;
    expect([without(NO_PUSH), without(wave(1290)), without(wave(1310))]).toEqual([1, 1, 1]);
    const half = times(5, wave(1310));
    expect(last([...times(8, { waveUs: 1310 }), ...half])?.sign).toBe(0);
    // unlike microphones: a push alone proves nothing
    const dull = (dB: number): MadeHit[] => [...times(6, { tiltB: dB }), ...times(4, { ...NO_PUSH, tiltB: dB })];
    expect([7.9, 8].map((dB) => last(dull(dB))?.sign)).toEqual([1, 0]);
  });

  it('ends with a move, and with a switch that was pressed', () => {
    for (const after of [{ delayUs: 1100 }, { sign: -1 }]) {
      const told = said([...times(8), ...times(4, after)]).map(({ sign }) => sign);
      expect(told.slice(9, 11)).toEqual([0, 0]);
      expect(told[11]).toBe(after.sign ?? 1);
    }
  });
});

describe('its accuracy', () => {
  const near = { atUs: 1000 };
  const far = { atUs: 1300 };
  const plusMinus = (fits: readonly MadeFit[], hits = times(fits.length)) =>
    said(hits, fits).map((one) => Math.round(one.plusMinusUs / 100));

  it('is told by the farthest best fit of the last four hits', () => {
    const fits = [near, near, near, near, far, near, near, near, near, near];
    expect(plusMinus(fits).slice(3)).toEqual([0, 4, 4, 4, 4, 0, 0]);
  });

  it('is unknown as long as one of them was of no use', () => {
    const other = { atUs: 1000, sign: -1, agree: 1, runnerUp: 0.8 };
    const fits = [near, near, near, near, other, near, near, near, near, near];
    expect(plusMinus(fits).slice(3)).toEqual([0, Number.NaN, Number.NaN, Number.NaN, Number.NaN, 0, 0]);
  });

  it('begins anew after a move', () => {
    const fits = [...Array(7).fill(near), far, ...Array(4).fill({ atUs: 1100 })];
    expect(plusMinus(fits, [...times(8), ...times(4, { delayUs: 1100 })]).at(-1)).toBe(0);
  });
});

describe('an answer that was known', () => {
  /** Hits one by one: where a pair of their onsets lies, µs; null: nowhere near. The first six are read by their first pushes, 1000 µs. */
  function heard(pairsUs: readonly (number | null)[], expected?: { us: number; sign: number }) {
    const { store, pool, next } = poolOf([]);
    const decision = decisionAnew();
    const standing = new Standing(RATE);
    if (expected) standing.expect(samplesOf(expected.us), expected.sign, samplesOf(50));
    return pairsUs.map((us, i) => {
      next(i < 6 && !expected ? {} : NO_PUSH);
      const s = store.newest;
      store.pairs[s] = us === null ? 0 : 1;
      store.pairDelay[s * PAIRS] = samplesOf(us ?? 0);
      store.pairSign[s * PAIRS] = 1;
      decided(store, pool, { atUs: 1000 }, undefined, decision);
      standing.amend(store, pool, decision);
      const { sign, delay, members, method } = decision;
      return { sign, delayUs: usOf(delay), members, method };
    });
  }
  const LIKELIEST = METHOD.likeliest;

  it('stays while the hits show it in a pair of onsets, though their first pushes don’t', () => {
    const last = heard(Array(14).fill(1010)).at(-1);
    expect(last).toMatchObject({ sign: 1, members: 14, method: LIKELIEST });
    expect(last?.delayUs).toBeCloseTo(1010, 6);
  });

  it('is gone where they don’t, or show another one', () => {
    for (const us of [null, 1200]) expect(heard([...Array(6).fill(1000), ...Array(8).fill(us)]).at(-1)?.sign).toBe(0);
  });

  it('comes back with two that show it', () => {
    const said = heard([...Array(6).fill(1000), ...Array(9).fill(null), 1000, 1000]);
    expect(said.slice(-3).map(({ sign }) => sign)).toEqual([0, 0, 1]);
  });

  it('may be told beforehand: then it is there as soon as two hits show it, and with that sign only', () => {
    const told = (sign: number): number[] => heard([null, 1000, 1000, 1000], { us: 1000, sign }).map((one) => one.sign);
    expect(told(1).at(-1)).toBe(1);
    expect(told(-1)).toEqual([0, 0, 0, 0]);
  });

  it('is forgotten by a drum that begins anew', () => {
    const standing = new Standing(RATE);
    const { store, pool, next } = poolOf([]);
    standing.expect(samplesOf(1000), 1, 2);
    standing.clear();
    for (let i = 0; i < 4; i++) {
      next(NO_PUSH);
      const s = store.newest;
      store.pairs[s] = 1;
      store.pairDelay[s * PAIRS] = samplesOf(1000);
      store.pairSign[s * PAIRS] = 1;
    }
    const { decision } = decided(store, pool, { atUs: 1000 });
    standing.amend(store, pool, decision);
    expect(decision.sign).toBe(0);
  });
});
