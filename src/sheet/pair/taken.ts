/** A reading as a sheet keeps it: in ms, as the inputs carry it, with its evidence. */
import { pathSaidCm } from '../../advice/plan/gap';
import { reasonOf } from '../../advice/plan/reasons';
import { reasonWords } from '../../advice/words/reasonWords';
import { POWER_SUM_DB, pathCm, sumDbFromCoherency } from '../../reading/acoustics';
import { SPECTRUM_POINTS } from '../../reading/bands';
import type { Fuller } from '../../reading/codes';
import { opposite } from '../../reading/polarity';
import {
  answerOf,
  type DrumReading,
  type MeasuredAnswer,
  type Reading,
  type Said,
  type SumReading,
  type SumSpectrum,
} from '../../reading/reading';
import { SUM_PICTURE_HZ, type Taken } from '../document/model';
import { octaveOf } from './lowOctave';
import { type PlannedWith, plannedOf } from './planned';

export interface TakenWith extends PlannedWith {
  /** ISO 8601, UTC */
  takenAt: string;
  run: string;
  initials: string;
  aInverted: boolean;
  bInverted: boolean;
  /** of a whole take: the tracks of the pair's A and B */
  files?: [a: string, b: string];
  /** the interface, the file or the example; empty or left out: nobody knows */
  source?: string;
}

/** coherence from which on a point counts as carried, as for the forecast on the sum plot */
const CARRIED_FROM = 0.3;

/** A delay and a polarity that hold: anything else can be accepted only as unsure. */
export const isSure = (answer: Said): answer is MeasuredAnswer => answer.state === 'measured';

/** A drum's own answer beside the one that the reading is about, as far as the comparison with an earlier reading needs it. */
export function takenOfDrum(taken: Taken, drum: DrumReading, reading: Reading, given: TakenWith): Taken {
  return { ...taken, ...arrivalOf(drum, drum.hits, reading, given) };
}

/** How much farther from the drum B is than A, cm, rounded as on the meter; null: not known. */
export function pathSaidOf(taken: Taken): number | null {
  const cm = (ms: number): number => pathCm(ms / 1000, taken.temperatureC);
  const { delayMs, spreadMs, uncertaintyMs } = taken;
  if (delayMs === null) return null;
  const known = { repeatsCm: cm(spreadMs ?? 0), uncertaintyCm: uncertaintyMs === null ? null : cm(uncertaintyMs) };
  return pathSaidCm({ pathCm: cm(delayMs), ...known });
}

/** @returns the reading, never a picture or array of its own that would change with the next one */
export function takenFrom(reading: Reading, given: TakenWith): Taken {
  const { takenAt, run, initials, temperatureC, aInverted, bInverted, meterInvert, files, source } = given;
  const sign = meterInvert ? -1 : 1;
  const { sum } = reading;
  return {
    takenAt,
    run,
    initials,
    temperatureC,
    aInverted,
    bInverted,
    sampleRate: reading.sampleRate,
    ...arrivalOf(answerOf(reading), reading.hits, reading, given),
    fuller: meterInvert ? otherFuller(sum.fuller) : sum.fuller,
    fullerDb: finiteOrNull(sum.fullerDb, 1),
    fullerLowHz: sum.fullerLowHz,
    fullerHighHz: sum.fullerHighHz,
    lowCoherency: lowCoherencyOf(sum, sign),
    octaveCoherency: sum.lowOctaves.map((re) => finiteOrNull(re, sign)),
    sumDb: pictureOf(sum.spectrum, sign),
    ...plannedOf(reading, given),
    ...(files ? { files } : {}),
    ...(source ? { source } : {}),
  };
}

/** Hits that agree of the hits in the running, as the meter counts them: not of all that were heard. */
export function agreeingHits({ hits, hitsUsed, agreement }: Pick<Taken, 'hits' | 'hitsUsed' | 'agreement'>): Agreed {
  const of = agreement !== null && agreement > 0 ? Math.round(hitsUsed / agreement) : hitsUsed;
  return { agree: hitsUsed, of: Math.min(hits, Math.max(hitsUsed, of)) };
}

interface Agreed {
  agree: number;
  of: number;
}

type Arrival = Pick<
  Taken,
  'sure' | 'reason' | 'polarity' | 'delayMs' | 'uncertaintyMs' | 'spreadMs' | 'hits' | 'hitsUsed' | 'agreement'
>;

/** What the hits say of the arrival, as the inputs carry it. */
function arrivalOf(
  said: Said,
  hits: number,
  { sampleRate, hitsNeeded }: Reading,
  { meterInvert, turned }: TakenWith,
): Arrival {
  const evidence = { hits, hitsUsed: said.hitsUsed, agreement: finiteOrNull(said.agreement, 1) };
  if (!isSure(said)) {
    const reason = reasonWords(reasonOf({ ...said, hitsNeeded })).short;
    return { sure: false, reason, polarity: null, delayMs: null, uncertaintyMs: null, spreadMs: null, ...evidence };
  }
  const toMs = (samples: number | null): number | null => finiteOrNull(samples, 1000 / sampleRate);
  const delayMs = toMs(said.delaySamples);
  return {
    sure: true,
    reason: '',
    polarity: meterInvert ? opposite(said.polarity) : said.polarity,
    delayMs: delayMs === null ? null : turned ? 0 - delayMs : delayMs,
    uncertaintyMs: toMs(said.uncertaintySamples),
    spreadMs: toMs(said.spreadSamples),
    ...evidence,
  };
}

function otherFuller(fuller: Fuller | null): Fuller | null {
  if (fuller === 'as-is') return 'inverted';
  return fuller === 'inverted' ? 'as-is' : fuller;
}

const finiteOrNull = (x: number | null, factor: number): number | null =>
  x !== null && Number.isFinite(x) ? x * factor : null;

/** Re γ of the octave that the reading calls the drum's low octave. */
function lowCoherencyOf({ fullerLowHz, lowOctaves }: SumReading, sign: number): number | null {
  return finiteOrNull(lowOctaves[octaveOf(fullerLowHz)] ?? null, sign);
}

/** A+B re one alone at every fourth point of the grid, to 0.1 dB; null where nothing is carried at all. */
function pictureOf({ re, coherence }: SumSpectrum, sign: number): (number | null)[] | null {
  const step = (SPECTRUM_POINTS - 1) / (SUM_PICTURE_HZ.length - 1);
  const picture = SUM_PICTURE_HZ.map((_, i) => {
    const x = re[i * step] as number;
    if (!Number.isFinite(x) || !((coherence[i * step] as number) >= CARRIED_FROM)) return null;
    // no −0: a file doesn’t keep it
    return Math.round((sumDbFromCoherency(sign * x) + POWER_SUM_DB) * 10) / 10 + 0;
  });
  return picture.some((db) => db !== null) ? picture : null;
}
