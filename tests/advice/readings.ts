/** Readings as the engine would post them, made up for the advice's tests: every field set, a few chosen. */

import {
  BANDS,
  HERE_STEPS,
  herePoints,
  NEAR_HALF_POINTS,
  NEAR_POINTS,
  nearStep,
  SPECTRUM_POINTS,
  spectrumHz,
} from '../../src/reading/bands';

import type { DrumFacts, DrumReading, Polarity, Reading, SumSpectrum } from '../../src/reading/reading';
import { changed, type Flat, flat, nested } from '../support/readings/flat';

export const RATE = 48000;
/** speed of sound at 20 °C as in acoustics.ts, cm per sample at RATE: 331.3·√(293.15/273.15)·100/48000 */
export const CM_PER_SAMPLE = (331.3 * Math.sqrt(293.15 / 273.15) * 100) / RATE;

/** A reading with nothing in it yet. */
export function reading(fields: Partial<Flat> = {}): Reading {
  const level = { peakDbfs: -12, rmsDbfs: -30, clips: 0, dc: 0, silent: false };
  const nothing = (): Float64Array => new Float64Array(SPECTRUM_POINTS).fill(Number.NaN);
  return nested({
    sampleRate: RATE,
    streamSeconds: 10,
    state: 'listening',
    reason: 'nothing-yet',
    offsetSamples: 0,
    noise: { windows: 0, zeroSeconds: 0, a: [], b: [], product: [], floorA: [], floorB: [] },
    gauge: null,
    hits: 0,
    hitsUsed: 0,
    hitsPooled: 0,
    hitsNeeded: 4,
    polarity: null,
    delaySamples: null,
    spreadSamples: null,
    agreement: null,
    uncertaintySamples: null,
    method: null,
    drum: null,
    drumChosen: false,
    drums: [],
    correlation: null,
    bands: bands(),
    fuller: null,
    fullerDb: null,
    fullerLowHz: null,
    fullerHighHz: null,
    lowOctaves: [null, null, null, null],
    levelDifferenceDb: 0,
    a: level,
    b: level,
    gap: false,
    bitIdentical: false,
    trace: { timeSeconds: 10, broadband: null, bands: [null, null, null, null] },
    curve: { values: new Float64Array(3), stepSamples: 1, hits: 0 },
    spectrum: { re: nothing(), im: nothing(), coherence: nothing() },
    now: [null, null, null, null, null, null],
    near: null,
    here: null,
    perHit: [],
    ...fields,
  });
}

/** Bands without a value. */
const bands = () =>
  BANDS.map((band) => ({
    ...band,
    correlation: null,
    coherence: null,
    sumDb: null,
    sumInvertedDb: null,
    sumAsRecordedDb: null,
    levelDifferenceDb: null,
  }));

/** The same arrival, with what A+B comes to round the present: to be tried on. */
export const tryable = (polarity: Polarity, cm: number, model: Partial<Model> = {}): Reading =>
  measured(polarity, cm, sumOf({ polarity, delaySamples: cm / CM_PER_SAMPLE, here: true, ...model }));

/** A locked arrival: polarity, path in cm at 20 °C, repeats within in cm; the sum is that of the arrival. */
export function measured(polarity: Polarity, pathCm: number, fields: Partial<Flat> = {}, repeatsCm = 0.2): Reading {
  return reading({
    ...sumOf({ polarity, delaySamples: pathCm / CM_PER_SAMPLE }),
    state: 'measured',
    reason: 'agreed',
    hits: 6,
    hitsUsed: 6,
    hitsPooled: 6,
    agreement: 1,
    polarity,
    delaySamples: pathCm / CM_PER_SAMPLE,
    spreadSamples: repeatsCm / CM_PER_SAMPLE,
    uncertaintySamples: 0.4 / CM_PER_SAMPLE,
    method: 'first-arrival',
    ...fields,
  });
}

/**
 * Two that have one sound in common: γ(f) = |γ|·p·exp(−j2πfτ), p the polarity, τ the delay of B. It need not be the arrival's:
 * what the first pushes say and what the bodies of the sounds do are two things.
 */
export interface Model {
  polarity: Polarity;
  delaySamples: number;
  /** |γ| */
  common?: number;
  /** what the two carry in each of BANDS, as power */
  energies?: readonly [number, number, number, number];
  /** the drum’s low octave; null: the hits carry none */
  lowHz?: number | null;
  /** the hits carry the whole band */
  all?: boolean;
  /** the arrival that `near` lies round, samples; null: no arrival holds */
  nearSamples?: number | null;
  /** told round the present as well: it takes its time */
  here?: boolean;
}

/** frequencies at which a band is looked at */
const LOOKS = 60;

/** Everything that a reading says of the sum, of one model. */
export function sumOf(model: Model): Partial<Flat> {
  const { polarity, delaySamples, common = 0.9, energies = [1, 1, 1, 1], lowHz = 60, all = true } = model;
  const { nearSamples = delaySamples, here: round = false } = model;
  const p = polarity === 'inverted' ? -1 : 1;
  const mean = (low: number, high: number, tau: number): number => {
    let sum = 0;
    for (let i = 0; i < LOOKS; i++) sum += Math.cos(2 * Math.PI * low * (high / low) ** ((i + 0.5) / LOOKS) * tau);
    return (common * p * sum) / LOOKS;
  };
  /** of near band n: the drum’s low octave, the whole band, BANDS; `tau` s */
  const gamma = (n: number, tau: number): number | null => {
    if (n === 0) return lowHz === null ? null : mean(lowHz, 2 * lowHz, tau);
    const band = BANDS[n - 2];
    if (band !== undefined) return mean(band.lowHz, band.highHz, tau);
    const total = energies.reduce((x, y) => x + y);
    const each = BANDS.map(({ lowHz: low, highHz: high }, i) => mean(low, high, tau) * (energies[i] as number));
    return all ? each.reduce((x, y) => x + y) / total : null;
  };
  const gammas = (tau: number): (number | null)[] => {
    const each = BANDS.map((_, b) => gamma(b + 2, tau) as number);
    const total = energies.reduce((x, y) => x + y);
    const whole = each.reduce((x, re, i) => x + re * (energies[i] as number), 0) / total;
    return [gamma(0, tau), all ? whole : null, ...each];
  };
  const tau = delaySamples / RATE;
  const now = gammas(tau);
  const [low] = now as [number | null];
  const over = low === null ? null : 10 * Math.log10((1 + low) / (1 - low));
  const step = nearStep(RATE);
  const centre = nearSamples === null ? 0 : Math.round(nearSamples);
  const places = (): (number | null)[][] =>
    Array.from({ length: NEAR_POINTS }, (_, i) => gammas(tau - (centre + (i - NEAR_HALF_POINTS) * step) / RATE));
  const near = (at: (number | null)[][]): Float64Array[] =>
    now.map((_, n) => Float64Array.from(at, (place) => place[n] ?? Number.NaN));
  const here = !round
    ? null
    : HERE_STEPS.map((each, n) => ({
        stepSamples: each * step,
        re: Float64Array.from({ length: herePoints(n) }, (_, i) => {
          const fallen = (i - (herePoints(n) - 1) / 2) * each * step;
          return gamma(n, tau - fallen / RATE) ?? Number.NaN;
        }),
      }));
  return {
    correlation: now[1] ?? null,
    now,
    here,
    near:
      nearSamples === null
        ? null
        : {
            centreSamples: centre,
            stepSamples: step,
            bands: near(places()),
          },
    bands: BANDS.map((band, b) => {
      const r = now[b + 2] as number;
      const [sumDb, sumInvertedDb] = [10 * Math.log10(1 + r), 10 * Math.log10(1 - r)];
      const coherence = common ** 2;
      return { ...band, correlation: r, coherence, sumDb, sumInvertedDb, sumAsRecordedDb: sumDb, levelDifferenceDb: 0 };
    }),
    fuller: over === null ? null : Math.abs(over) < 1 ? 'either' : over > 0 ? 'as-is' : 'inverted',
    fullerDb: over === null ? null : Math.abs(over),
    fullerLowHz: lowHz,
    fullerHighHz: lowHz === null ? null : 2 * lowHz,
    spectrum: delaySpectrum(tau, polarity, common),
  };
}

/** The coherency of a pure delay and polarity, levels equal. */
export function delaySpectrum(seconds: number, polarity: Polarity, common = 0.9): SumSpectrum {
  const sign = polarity === 'inverted' ? -1 : 1;
  const over = (f: (hz: number) => number): Float64Array =>
    Float64Array.from({ length: SPECTRUM_POINTS }, (_, i) => f(spectrumHz(i)));
  return {
    re: over((hz) => common * sign * Math.cos(2 * Math.PI * hz * seconds)),
    im: over((hz) => -common * sign * Math.sin(2 * Math.PI * hz * seconds)),
    coherence: over(() => common ** 2),
  };
}

/** Where the hits carry no sum at all. */
export const NO_SUM: Partial<Flat> = {
  correlation: null,
  now: [null, null, null, null, null, null],
  near: null,
  here: null,
  bands: bands(),
  fuller: null,
  fullerDb: null,
  fullerLowHz: null,
  fullerHighHz: null,
};

/** The same pair with B turned over: what the meter shows once its invert is pressed. */
export function turnedOver(r: Reading): Reading {
  const other = { 'as-is': 'inverted', inverted: 'as-is', either: 'either' } as const;
  const { state, polarity, fuller, bands: read, spectrum, now, near, here, correlation } = flat(r);
  const minus = (x: number | null): number | null => (x === null ? null : -x);
  return changed(r, {
    ...(state === 'measured' ? { polarity: polarity === 'same' ? 'inverted' : 'same' } : {}),
    fuller: fuller === null ? null : other[fuller],
    bands: read.map((b) => ({
      ...b,
      correlation: minus(b.correlation),
      sumDb: b.sumInvertedDb,
      sumInvertedDb: b.sumDb,
    })),
    spectrum: { ...spectrum, re: spectrum.re.map((x) => -x), im: spectrum.im.map((x) => -x) },
    correlation: minus(correlation),
    now: now.map(minus),
    near: near && { ...near, bands: near.bands.map((band) => band.map((x) => -x)) },
    here: here?.map((band) => ({ ...band, re: band.re.map((x) => -x) })) ?? null,
  });
}

/** The same pair with A and B changed over. */
export function swappedOver(r: Reading): Reading {
  const { state, delaySamples, spectrum, near, here } = flat(r);
  return changed(r, {
    ...(state === 'measured' ? { delaySamples: -(delaySamples as number) } : {}),
    spectrum: { ...spectrum, im: spectrum.im.map((x) => -x) },
    near: near && {
      ...near,
      centreSamples: -near.centreSamples,
      bands: near.bands.map((band) => band.slice().reverse()),
    },
    here: here?.map((band) => ({ ...band, re: band.re.slice().reverse() })) ?? null,
  });
}

/** One of the drums heard: inverted, B 12 cm later. */
export function drum(id: number, fields: Partial<Flat & DrumFacts> = {}): DrumReading {
  const one: Partial<Flat> = {
    hits: 12,
    hitsPooled: 10,
    hitsUsed: 9,
    state: 'measured',
    reason: 'agreed',
    polarity: 'inverted',
    delaySamples: 12 / CM_PER_SAMPLE,
    spreadSamples: 0.2,
    agreement: 0.9,
    uncertaintySamples: 0.5,
  };
  const [made] = reading({ ...one, ...fields, drum: id, drums: [] }).drums;
  const { levelADbfs = -8, levelBDbfs = -20, centreHz = 62 } = fields;
  return { ...(made as DrumReading), levelADbfs, levelBDbfs, centreHz };
}
