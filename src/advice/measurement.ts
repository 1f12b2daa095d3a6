/** A whole reading as it is handed out: the figures, the plan and the sentences, `null` wherever there is no value. */

import { notchesHz, pathCm, SUM_FLOOR_DB } from '../reading/acoustics';
import type { BandName } from '../reading/bands';
import type { Fuller, ReadingReason, ReadingState } from '../reading/codes';
import { answerOf, type DrumReading, type Polarity, type Reading } from '../reading/reading';
import type { Advice } from './advice';
import { advise } from './advise';
import type { Alternative } from './plan/alternatives';
import type { PairKindId } from './plan/pairKinds';
import { reasonNow } from './plan/reasons';
import { reasonSentence, reasonText } from './words/reasonWords';

const NOTCHES = 5;

export interface MeasuredBand {
  name: BandName;
  lowHz: number;
  highHz: number;
  correlation: number | null;
  coherence: number | null;
  sumDb: number | null;
  sumInvertedDb: number | null;
  sumAsRecordedDb: number | null;
}

export interface MeasuredHit {
  timeSeconds: number;
  delaySamples: number | null;
  polarity: Polarity | null;
  /** id of its drum; null: of none */
  drum: number | null;
  used: boolean;
}

/** A drum heard, with its own answer. */
export type MeasuredDrum = Omit<DrumReading, 'method' | 'reason'> & {
  /** one sentence, as that of the whole reading */
  reason: string;
  reasonCode: ReadingReason;
  /** null: nobody said */
  name: string | null;
};

/** What was heard; `null` wherever there is no value, never NaN. */
export interface Measurement {
  sampleRate: number;
  state: ReadingState;
  /** one sentence */
  reason: string;
  reasonCode: ReadingReason;
  offsetSamples: number;
  hits: number;
  hitsUsed: number;
  polarity: Polarity | null;
  delaySamples: number | null;
  delayMs: number | null;
  pathCm: number | null;
  spreadSamples: number | null;
  agreement: number | null;
  uncertaintySamples: number | null;
  /** id of the drum that the answer is about (null: none, or it is open which), and the drums heard, the loudest in A above 1 kHz first */
  drum: number | null;
  drums: MeasuredDrum[];
  correlation: number | null;
  bands: MeasuredBand[];
  fuller: Fuller | null;
  fullerDb: number | null;
  fullerLowHz: number | null;
  fullerHighHz: number | null;
  notchesHz: number[];
  advice: Pick<Advice, 'action' | 'moveCm' | 'delayLaterMs' | 'text' | 'notes' | 'cautions'>;
  /** whole alternatives, the recommended one first; empty: nothing is advised */
  plan: MeasuredAlternative[];
  perHit: MeasuredHit[];
}

/** What can be done, all of it together, and what A+B gains over the present, dB. */
export interface MeasuredAlternative extends Alternative {
  recommended: boolean;
}

/** What is known of the pair beside its reading. */
export interface Told {
  kind: PairKindId;
  temperatureC: number;
  /** what the drum that is read is called; null: nobody said */
  drumName: string | null;
  /** what A and B are called; empty: nobody said */
  labels?: readonly [string, string];
}

export function measurementOf(
  reading: Reading,
  perHit: MeasuredHit[],
  { kind, temperatureC, drumName, labels = ['', ''] }: Told,
): Measurement {
  const { sampleRate, sum } = reading;
  const said = answerOf(reading);
  const { polarity } = said;
  const delay = said.state === 'measured' ? said.delaySamples : null;
  const delaySeconds = delay === null ? null : delay / sampleRate;
  const drumNames = new Map(drumName === null || reading.drum === null ? [] : [[reading.drum, drumName]]);
  const advice = advise(reading, {
    kind,
    temperatureC,
    invertB: false,
    ended: true,
    drumNames,
    aLabel: labels[0],
    bLabel: labels[1],
  });
  return plain({
    sampleRate,
    state: said.state,
    reason: reasonSentence(reading, true),
    reasonCode: said.reason,
    offsetSamples: reading.inputs.offsetSamples,
    hits: reading.hits,
    hitsUsed: said.hitsUsed,
    polarity,
    delaySamples: delay,
    delayMs: delaySeconds === null ? null : delaySeconds * 1000,
    pathCm: delaySeconds === null ? null : pathCm(delaySeconds, temperatureC),
    spreadSamples: said.spreadSamples,
    agreement: said.agreement,
    uncertaintySamples: said.uncertaintySamples,
    drum: reading.drum,
    drums: reading.drums.map((drum) => drumOf(drum, reading, drumNames.get(drum.id) ?? null)),
    correlation: sum.correlation,
    bands: sum.bands.map((band) => ({
      name: band.name,
      lowHz: band.lowHz,
      highHz: band.highHz,
      correlation: band.correlation,
      coherence: band.coherence,
      sumDb: floored(band.sumDb),
      sumInvertedDb: floored(band.sumInvertedDb),
      sumAsRecordedDb: floored(band.sumAsRecordedDb),
    })),
    fuller: sum.fuller,
    fullerDb: sum.fullerDb,
    fullerLowHz: sum.fullerLowHz,
    fullerHighHz: sum.fullerHighHz,
    notchesHz: delaySeconds === null || polarity === null ? [] : notchesHz(delaySeconds, polarity).slice(0, NOTCHES),
    advice: {
      action: advice.action,
      moveCm: advice.moveCm,
      delayLaterMs: advice.delayLaterMs,
      text: advice.text,
      notes: advice.notes,
      cautions: advice.cautions,
    },
    plan: advice.plan.map((one, i) => ({ recommended: i === 0, ...one })),
    perHit,
  });
}

/** The keys of a drum, in their order. */
function drumOf(drum: DrumReading, { hitsNeeded }: Reading, name: string | null): MeasuredDrum {
  const {
    id,
    hits,
    hitsPooled,
    hitsUsed,
    state,
    reason: reasonCode,
    polarity,
    delaySamples,
    spreadSamples,
    agreement,
  } = drum;
  const { uncertaintySamples, levelADbfs, levelBDbfs, centreHz } = drum;
  const reason = reasonText(reasonNow({ ...drum, hitsNeeded }, true));
  const counts = { id, name, hits, hitsPooled, hitsUsed, state, reason, reasonCode };
  const arrival = { polarity, delaySamples, spreadSamples, agreement, uncertaintySamples };
  return { ...counts, ...arrival, levelADbfs, levelBDbfs, centreHz };
}

/** a perfect null is −∞, which JSON can't say */
const floored = (db: number | null): number | null => (db === null ? null : Math.max(SUM_FLOOR_DB, db));

/** Numbers that are none become null, all others are cut to what they can mean. */
function plain<T>(value: T): T {
  if (typeof value === 'number') return (Number.isFinite(value) ? Number(value.toPrecision(9)) : null) as T;
  if (Array.isArray(value)) return value.map(plain) as T;
  if (typeof value === 'object' && value !== null) {
    return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, plain(inner)])) as T;
  }
  return value;
}
