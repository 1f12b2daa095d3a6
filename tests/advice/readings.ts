/** Readings as the engine would post them, made up for the advice's tests: every field set, a few chosen. */

import { BANDS, SPECTRUM_POINTS, spectrumHz } from '../../src/reading/bands';
import type { Fuller } from '../../src/reading/codes';
import type { BandReading, DrumFacts, DrumReading, Polarity, Reading, SumSpectrum } from '../../src/reading/reading';
import { type Flat, nested } from '../support/readings/flat';

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
    perHit: [],
    ...fields,
  });
}

/** Bands without a value, save A+B over A−B in dB where given. */
export function bands(overDb: Partial<Record<BandReading['name'], number>> = {}): BandReading[] {
  return BANDS.map((band) => {
    const over = overDb[band.name];
    // 10·log10(1+r) − 10·log10(1−r) = over
    const ratio = over === undefined ? Number.NaN : 10 ** (over / 10);
    const r = (ratio - 1) / (ratio + 1);
    const value = (x: number): number | null => (over === undefined ? null : x);
    return {
      ...band,
      correlation: value(r),
      coherence: value(0.9),
      sumDb: value(10 * Math.log10(1 + r)),
      sumInvertedDb: value(10 * Math.log10(1 - r)),
      sumAsRecordedDb: value(10 * Math.log10(1 + r)),
      levelDifferenceDb: value(0),
    };
  });
}

/** A locked arrival: polarity, path in cm at 20 °C, repeats within in cm. */
export function measured(polarity: Polarity, pathCm: number, fields: Partial<Flat> = {}, repeatsCm = 0.2): Reading {
  return reading({
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

/** The sum's answer in a low band. */
export function sums(fuller: Fuller | null, db = 4, lowHz = 60, highHz = 120): Partial<Flat> {
  return { fuller, fullerDb: fuller === 'either' ? 0.4 : db, fullerLowHz: lowHz, fullerHighHz: highHz };
}

/** The coherency of a pure delay and polarity, levels equal. */
export function delaySpectrum(seconds: number, polarity: Polarity): SumSpectrum {
  const sign = polarity === 'inverted' ? -1 : 1;
  const over = (f: (hz: number) => number): Float64Array =>
    Float64Array.from({ length: SPECTRUM_POINTS }, (_, i) => f(spectrumHz(i)));
  return {
    re: over((hz) => 0.9 * sign * Math.cos(2 * Math.PI * hz * seconds)),
    im: over((hz) => -0.9 * sign * Math.sin(2 * Math.PI * hz * seconds)),
    coherence: over(() => 0.81),
  };
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
