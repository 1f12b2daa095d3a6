/** What is likeliest where the witnesses leave it open: hits whose onset pairs are made by hand. */
import { describe, expect, it } from 'vitest';
import type { AttackFit } from '../../../../src/dsp/delay/attackFit';
import { Likelihood } from '../../../../src/dsp/delay/likely/likelihood';
import { PAIRS } from '../../../../src/dsp/hit/onsets';
import { TUNING } from '../../../../src/dsp/tuning';
import { tuned } from '../../../../src/dsp/tuning/tuned';
import { fitOf, poolOf, RATE, samplesOf, stackOf } from '../../../support/rules/rules';
import { seeded } from '../../../support/sound/signals';

const { likely: RULES } = TUNING.delay;
const REACH_US = 11_000;
/** hits that scatter so aren't taken for a move */
const STANDING_STILL = tuned({ 'parts.motion': false });

interface Pair {
  us: number;
  sign?: number;
}
interface Made {
  /** each hit's pairs; the first is its two first pushes' */
  hits: readonly (readonly Pair[])[];
  /** height of the attacks' curve at a delay */
  height?(us: number): number;
  fit?: Parameters<typeof fitOf>[0];
}

function weighed({ hits, height = () => 0, fit }: Made): Likelihood {
  const { store, pool } = poolOf(
    hits.map(([first]) => (first ? { delayUs: first.us, sign: first.sign ?? 1 } : { delayUs: Number.NaN })),
    false,
    0,
    STANDING_STILL,
  );
  hits.forEach((pairs, i) => {
    const s = store.at(i);
    store.pairs[s] = pairs.length;
    pairs.forEach(({ us, sign = 1 }, q) => {
      store.pairDelay[s * PAIRS + q] = samplesOf(us);
      store.pairSign[s * PAIRS + q] = sign;
    });
    // no other witness speaks
    store.waveRival[s] = 1;
    store.lowAlone[s] = 0;
  });
  const attacks = Object.assign(fitOf(fit), {
    peaks: 0,
    maxLagSamples: samplesOf(REACH_US),
    heightAt: (samples: number) => height((samples / RATE) * 1e6),
  }) as unknown as AttackFit;
  const likelihood = new Likelihood(RATE);
  likelihood.begin();
  for (let i = 0; i < 200; i++) if (likelihood.work(store, pool, attacks, stackOf())) return likelihood;
  throw new Error('it never ends');
}

const usOf = (samples: number): number => (samples / RATE) * 1e6;
const random = seeded(5);
const anywhere = (): Pair => ({ us: (2 * random() - 1) * REACH_US, sign: random() < 0.5 ? 1 : -1 });
const at = (us: number, scatterUs = 15): Pair => ({ us: us + (2 * random() - 1) * scatterUs, sign: -1 });
/** so many hits that show it, with others before or after, and so many that don't */
const groove = (show: number, other: number, us: number): Pair[][] => [
  ...Array.from({ length: show }, () => [at(us), anywhere(), anywhere()]),
  ...Array.from({ length: other }, () => [anywhere(), anywhere(), anywhere()]),
];
const peakAt =
  (there: number) =>
  (us: number): number =>
    Math.abs(us - there) < 100 ? 1 : 0.3;

describe('the likeliest delay', () => {
  it('is the one that half of the hits show, others anywhere, where the attacks fit there best', () => {
    const found = weighed({ hits: groove(6, 6, 2400), height: peakAt(2400), fit: { atUs: 2410, sign: -1 } });
    expect(Math.abs(usOf(found.delay) - 2400)).toBeLessThan(20);
    expect(found.sign).toBe(-1);
    expect(found.probability).toBeGreaterThan(0.6);
    expect(found.members).toBe(6);
    expect([...found.shows.slice(0, 12)]).toEqual([1, 1, 1, 1, 1, 1, 0, 0, 0, 0, 0, 0]);
    expect(Math.abs(usOf(found.shownAt[0] as number) - 2400)).toBeLessThan(16);
    expect(usOf(found.spread)).toBeLessThan(16);
  });

  it('is not likely enough while nothing but chance makes a group', () => {
    for (let draw = 0; draw < 60; draw++)
      expect(weighed({ hits: groove(0, 12, 0) }).probability).toBeLessThan(RULES.stays);
  });

  it('is not likely enough where the pairs agree and nothing else speaks for it', () => {
    expect(weighed({ hits: groove(6, 6, 2400) }).probability).toBeLessThan(RULES.stays);
  });

  it('is less likely with every hit less that shows it', () => {
    const of = (show: number): number =>
      weighed({ hits: groove(show, 12 - show, 2400), height: peakAt(2400), fit: { atUs: 2410, sign: -1 } }).probability;
    const [four, eight, twelve] = [of(4), of(8), of(12)];
    expect(four).toBeLessThan(eight as number);
    expect(eight).toBeLessThan(twelve as number);
    expect(twelve).toBeGreaterThan(0.9);
  });

  it('is one with neighbouring swings, and as uncertain as they lie apart', () => {
    const alone = weighed({ hits: groove(8, 4, 2400), height: peakAt(2400), fit: { atUs: 2410, sign: -1 } });
    const hits = groove(8, 4, 2400).map((pairs, i) => (i < 8 ? [...pairs, at(2490)] : pairs));
    const two = weighed({ hits, height: peakAt(2445), fit: { atUs: 2445, sign: -1 } });
    expect(two.probability).toBeGreaterThan(0.6);
    expect(usOf(two.width)).toBeGreaterThan(usOf(alone.width) + 10);
  });

  it('is split between two that are alike and lie farther apart', () => {
    const hits = groove(8, 4, 2400).map((pairs, i) => (i < 8 ? [...pairs, at(3400)] : pairs));
    expect(weighed({ hits, height: () => 1 }).probability).toBeLessThan(0.8);
  });

  it('has changed where the newest hits don’t show it any more, and not where they come by turns', () => {
    const show = (order: string): number =>
      weighed({ hits: [...order].map((one) => (one === '1' ? [at(2400)] : [anywhere()])), height: peakAt(2400) })
        .change;
    expect(show('111101111000')).toBeGreaterThan(RULES.changed);
    expect(show('11110000')).toBeGreaterThan(RULES.changed);
    expect(show('101101011010')).toBeLessThan(RULES.changed);
    expect(show('000011111111')).toBe(0);
    expect(show('111111111111')).toBe(0);
  });

  it('is none without a pair', () => {
    const found = weighed({ hits: Array.from({ length: 8 }, () => []) });
    expect([found.sign, found.probability]).toEqual([0, 0]);
  });
});
