/**
 * The sum of made-up spectra. README, "What a reading means": fuller or thinner at equal levels, A±B re the power sum is
 * 10·log10(1 ± Re γ), in the drum's low octave and in what the hits carry.
 */
import { describe, expect, it } from 'vitest';
import { angleOf, type MadeSum, SUM_LIMITS, sumOf, sums } from '../../support/rules/madeSums';
import { named } from '../../support/rules/named';

const FULLER = ['as-is', 'inverted', 'either'];
const dB = (ratio: number): number => 10 * Math.log10(ratio);
/** octaves from 31.5 Hz on: this one at 0 dB, the others far below unless told */
const octaves = (...told: [k: number, dB: number][]): number[] =>
  Array.from({ length: SUM_LIMITS.octaves }, (_, k) => told.find(([at]) => at === k)?.[1] ?? -60);
const lowHz = (k: number): number => (31.25 / Math.SQRT2) * 2 ** k;

describe('which polarity of B is fuller', () => {
  it.each([
    { re: 0.8, fuller: 'as-is', by: dB(1.8 / 0.2) },
    { re: -0.5, fuller: 'inverted', by: dB(1.5 / 0.5) },
    { re: 0.12, fuller: 'as-is', by: dB(1.12 / 0.88) },
    { re: -0.12, fuller: 'inverted', by: dB(1.12 / 0.88) },
    // below 1 dB
    { re: 0.11, fuller: 'either', by: dB(1.11 / 0.89) },
    { re: -0.11, fuller: 'either', by: dB(1.11 / 0.89) },
    { re: 0, fuller: 'either', by: 0 },
  ])('Re γ $re: $fuller, by $by dB', ({ re, fuller, by }) => {
    const sum = sumOf(sums(4, { angle: angleOf(re) }));
    expect(FULLER[sum.fuller]).toBe(fuller);
    expect(sum.fullerDb).toBeCloseTo(by, 9);
  });

  it('is the same whatever the levels of the two', () => {
    for (const energyB of [1e-4, 1, 100])
      expect(sumOf(sums(4, { angle: angleOf(0.8), energyB })).fullerDb).toBeCloseTo(dB(9), 9);
  });

  it('adds the hits up as they were recorded, a loud one by its energy', () => {
    const hits = [{ angle: 0 }, { angle: 0, energyA: 0.01 }, { angle: angleOf(0.5), energyA: 1e4, energyB: 1e4 }];
    const re = (1 + 0.1 + 0.5 * 1e4) / Math.sqrt((1 + 0.01 + 1e4) * (1 + 1 + 1e4));
    expect(sumOf(hits).fullerDb).toBeCloseTo(dB((1 + re) / (1 - re)), 9);
  });
});

describe('the drum’s low octave: the lowest that carries it in both microphones', () => {
  interface Row {
    name: string;
    hits: MadeSum[];
    /** number of the octave; null: none */
    own: number | null;
  }
  const both = (...told: [number, number][]): MadeSum => ({ octavesA: octaves(...told), octavesB: octaves(...told) });
  const two = both([2, -5], [3, 0]);
  const turned = (k: number, degrees: number) => (hz: number) => (hz > lowHz(k) && hz < 2 * lowHz(k) ? degrees : 30);

  it.each(
    named<Row>([
      { name: 'the only one', hits: sums(4, both([3, 0])), own: 3 },
      { name: 'the lower one within 10 dB of the strongest', hits: sums(4, both([2, -9.9], [3, 0])), own: 2 },
      { name: 'not a lower one farther below', hits: sums(4, both([2, -10.1], [3, 0])), own: 3 },
      {
        name: 'not one that A hears too softly',
        hits: sums(4, { octavesA: octaves([2, -10.1], [3, 0]), octavesB: octaves([2, 0], [3, 0]) }),
        own: 3,
      },
      {
        name: 'not one that B hears too softly',
        hits: sums(4, { octavesA: octaves([2, 0], [3, 0]), octavesB: octaves([2, -10.1], [3, 0]) }),
        own: 3,
      },
      { name: 'one 15.1 dB over the noise of both', hits: sums(4, { ...two, noiseA: -20.1, noiseB: -20.1 }), own: 2 },
      { name: 'not one 14.9 dB over the noise of A', hits: sums(4, { ...two, noiseA: -19.9 }), own: 3 },
      { name: 'not one 14.9 dB over the noise of B', hits: sums(4, { ...two, noiseB: -19.9 }), own: 3 },
      {
        name: 'one over the quietest noise before the hits',
        hits: [{ ...two, noiseA: -40 }, ...sums(3, { ...two, noiseA: -6 })],
        own: 2,
      },
      { name: 'never that of 31.5 Hz', hits: sums(4, both([0, 0], [2, -5])), own: 2 },
      { name: 'up to that of 500 Hz', hits: sums(4, both([4, 0])), own: 4 },
      { name: 'not that of 1 kHz', hits: sums(4, both([5, 0])), own: null },
      { name: 'none within 10 dB of what is above 1 kHz', hits: sums(4, both([3, -10.1], [6, 0])), own: null },
      {
        name: 'one that the hits do not repeat has no answer',
        hits: [0, 90, 180, 270].map((d) => ({ ...two, angle: turned(2, d) })),
        own: null,
      },
    ]),
  )('%s', (_, { hits, own }) => {
    // turned by 30°, or it would be one signal twice
    const sum = sumOf(hits.map((hit) => ({ angle: 30, ...hit })));
    if (own === null) {
      expect([sum.fuller, sum.fullerDb, sum.fullerLowHz, sum.fullerHighHz]).toEqual(Array(4).fill(Number.NaN));
      return;
    }
    expect(FULLER[sum.fuller]).toBe('as-is');
    expect(sum.fullerLowHz).toBeCloseTo(lowHz(own), 9);
    expect(sum.fullerHighHz).toBeCloseTo(2 * lowHz(own), 9);
  });

  it('Re γ of each low octave is told where the hits stand over the noise and repeat it', () => {
    const angles = [0, 90, 180, 270];
    const hits = angles.map((d) => ({
      angle: (hz: number) => (hz > lowHz(2) && hz < lowHz(3) ? d : angleOf(hz > lowHz(4) ? -0.25 : 0.5)),
      noiseA: octaves([3, -14]),
    }));
    const { lowOctaves } = sumOf(hits);
    expect(lowOctaves[0]).toBeCloseTo(0.5, 9);
    expect(lowOctaves[1]).toBeNaN();
    expect(lowOctaves[2]).toBeNaN();
    expect(lowOctaves[3]).toBeCloseTo(-0.25, 9);
  });
});

describe('the fixed bands', () => {
  const band = (hits: MadeSum[], b: number) => {
    const [correlation, coherence, sumDb, invertedDb, asRecordedDb, levelDb] = sumOf(hits).bands.subarray(
      6 * b,
      6 * b + 6,
    );
    return { correlation, coherence, sumDb, invertedDb, asRecordedDb, levelDb };
  };

  it.each([0, 1, 2, 3])('number %i: Re γ 0.6, B 6 dB down: levels equal, and as recorded', (b) => {
    const row = band(sums(4, { angle: angleOf(0.6), energyB: 0.25 }), b);
    expect(row.correlation).toBeCloseTo(0.6, 9);
    expect(row.coherence).toBeCloseTo(1, 9);
    expect(row.sumDb).toBeCloseTo(dB(1.6), 9);
    expect(row.invertedDb).toBeCloseTo(dB(0.4), 9);
    expect(row.levelDb).toBeCloseTo(dB(0.25), 9);
    // |1 + 0.5·γ|² over 1 + 0.25
    expect(row.asRecordedDb).toBeCloseTo(dB((1 + 0.25 + 2 * 0.6 * 0.5) / 1.25), 9);
  });

  it('has nothing to say where the hits don’t repeat', () => {
    const { correlation, sumDb } = band(
      [0, 90, 180, 270].map((angle) => ({ angle })),
      1,
    );
    expect([correlation, sumDb]).toEqual([Number.NaN, Number.NaN]);
  });
});

describe('the grid', () => {
  it('is γ, B late turning the angle down, where the hits carry it', () => {
    // 0.5 ms late: a quarter turn back at 500 Hz
    const sum = sumOf(sums(4, { angle: (hz) => -0.0005 * hz * 360 }));
    const at = 240 * (Math.log10(500 / 20) / 3);
    const p = Math.round(at);
    const turn = 2 * Math.PI * 0.0005 * 20 * 1000 ** (p / 240);
    expect(sum.re[p]).toBeCloseTo(Math.cos(turn), 9);
    expect(sum.im[p]).toBeCloseTo(-Math.sin(turn), 9);
    expect(sum.coherence[p]).toBeCloseTo(1, 9);
  });

  it('shows nothing of what the hits don’t carry', () => {
    const sum = sumOf([0, 90, 180, 270].map((angle) => ({ angle })));
    expect([...sum.re].every(Number.isNaN)).toBe(true);
    expect(sum.coherence[100]).toBeCloseTo(0, 9);
  });
});

describe('the hits that count', () => {
  const plain: MadeSum = { angle: angleOf(0.8), energyB: 0.1 };
  it.each(
    named([
      { name: 'as many as are needed', hits: sums(SUM_LIMITS.hitsNeeded, plain), counted: 3, answered: true },
      {
        name: 'one too few: their correlation, no sum',
        hits: sums(SUM_LIMITS.hitsNeeded - 1, plain),
        counted: 2,
        answered: false,
      },
      {
        name: 'one isn’t worked out yet',
        hits: [...sums(2, plain), { ...plain, hasSum: false }],
        counted: 2,
        answered: false,
      },
      {
        name: 'one in which A is silent',
        hits: [...sums(2, plain), { ...plain, energyA: 0 }],
        counted: 2,
        answered: false,
      },
      {
        name: 'one in which B is silent',
        hits: [...sums(2, plain), { ...plain, energyB: 0 }],
        counted: 2,
        answered: false,
      },
      { name: 'none', hits: [], counted: 0, answered: false },
    ]),
  )('%s', (_, { hits, counted, answered }) => {
    const sum = sumOf(hits);
    expect(sum.hits).toBe(counted);
    expect(FULLER[sum.fuller]).toBe(answered ? 'as-is' : undefined);
    if (counted === 0) expect(sum.correlation).toBeNaN();
    else {
      expect(sum.correlation).toBeCloseTo(0.8, 9);
      expect(sum.levelDifferenceDb).toBeCloseTo(-10, 9);
    }
  });
});

describe('one signal twice', () => {
  it.each(
    named([
      { name: 'a copy', hits: sums(2), same: true },
      { name: 'an inverted copy, 20 dB down', hits: sums(2, { angle: 180, energyB: 0.01 }), same: true },
      { name: 'one hit is too few', hits: sums(1), same: false },
      { name: 'correlation 0.9996', hits: sums(4, { correlation: 0.9996 }), same: true },
      { name: 'correlation 0.9994', hits: sums(4, { correlation: 0.9994 }), same: false },
      // two microphones at one spot differ in the attack
      { name: 'in the attack 0.996', hits: sums(4, { attack: 0.996 }), same: true },
      { name: 'in the attack 0.994', hits: sums(4, { attack: 0.994 }), same: false },
      { name: 'copies and inverted copies', hits: [...sums(2), ...sums(2, { angle: 180 })], same: false },
    ]),
  )('%s', (_, { hits, same }) => {
    const sum = sumOf(hits);
    expect(sum.sameSignal).toBe(same);
    // it has no sum worth the name
    if (same) expect(sum.fuller).toBeNaN();
  });
});
