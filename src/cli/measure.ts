/** Two channels through the engine, and the answer as the measuring command gives it. No process, no files. */

import type { Advice } from '../advice/advice';
import { advise } from '../advice/advise';
import type { Alternative } from '../advice/plan/alternatives';
import { fateHere } from '../advice/plan/hitFates';
import { type PairKindId, pairKind } from '../advice/plan/pairKinds';
import { lowEndOnly, reasonNow } from '../advice/plan/reasons';
import { reasonSentence, reasonText } from '../advice/words/reasonWords';
import { Engine } from '../dsp/engine';
import { TUNING } from '../dsp/tuning';
import { notchesHz, pathCm, SUM_FLOOR_DB } from '../reading/acoustics';
import type { BandName } from '../reading/bands';
import type { Fuller, ReadingReason, ReadingState } from '../reading/codes';
import { answerOf, type DrumReading, type HitReading, type Polarity, type Reading } from '../reading/reading';

export interface MeasureOptions {
  kind?: PairKindId;
  temperatureC?: number;
  /** stop once so many hits were used; all of the stream when undefined */
  hits?: number | undefined;
  /** taken out before anything else: delay of B's path against A's, samples, within ±20 ms */
  offsetSamples?: number;
  /** what the drum that is read is called; null: nobody said */
  drumName?: string | null;
}

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

/** Fill A and B (of equal length) with frames from `fromFrame` on; returns the frames written, 0 at the end. */
export type BlockSource = (fromFrame: number, a: Float32Array, b: Float32Array) => number;

const BLOCK_FRAMES = 4096;
/** the newest hits stay in a reading for much longer than this, so none is missed between two looks */
const LOOK_SECONDS = 0.5;
const NOTCHES = 5;
/** shorter blocks where the place to stop counts */
const FINE_BLOCK_FRAMES = 1024;
/** a hit’s sum is measured until 190 ms after it: after the last wanted hit so much is listened to, unless another begins */
const SUM_SECONDS = TUNING.hit.spectra.afterSeconds + 0.03;

/**
 * @param a, b samples of one length, full scale ±1
 * @throws RangeError when the lengths differ or the rate is outside 8–384 kHz, or the offset is beyond ±20 ms
 */
export function measureChannels(
  a: Float32Array,
  b: Float32Array,
  sampleRate: number,
  options: MeasureOptions = {},
): Measurement {
  if (a.length !== b.length) throw new RangeError(`b must have length ${a.length} but had length ${b.length}`);
  const source: BlockSource = (from, intoA, intoB) => {
    const block = a.subarray(from, from + intoA.length);
    intoA.set(block);
    intoB.set(b.subarray(from, from + intoB.length));
    return block.length;
  };
  return measureSource(source, sampleRate, options);
}

/**
 * The same from a source that hands out blocks.
 * @throws RangeError when the rate is outside 8–384 kHz or the offset beyond ±20 ms
 */
export function measureSource(source: BlockSource, sampleRate: number, options: MeasureOptions = {}): Measurement {
  const kind = options.kind ?? 'other';
  const temperatureC = options.temperatureC ?? 20;
  const engine = new Engine(sampleRate, {
    maxLagMs: pairKind(kind).maxLagMs,
    offsetSamples: options.offsetSamples ?? 0,
  });
  const hits = new HitLog();
  const fine = options.hits !== undefined;
  const blockA = new Float32Array(fine ? FINE_BLOCK_FRAMES : BLOCK_FRAMES);
  const blockB = new Float32Array(blockA.length);
  const lookFrames = fine ? 0 : LOOK_SECONDS * sampleRate;

  let lookedAt = 0;
  let enough: { untilFrame: number; hits: number } | null = null;
  for (let at = 0; ; ) {
    const got = source(at, blockA, blockB);
    if (got === 0) break;
    engine.push(blockA.subarray(0, got), blockB.subarray(0, got));
    at += got;
    if (at - lookedAt < lookFrames) continue;
    lookedAt = at;
    const reading = engine.reading();
    if (enough && (at >= enough.untilFrame || reading.hits > enough.hits)) break;
    hits.note(reading);
    if (!enough && options.hits !== undefined && hits.everUsed >= options.hits) {
      enough = { untilFrame: at + SUM_SECONDS * sampleRate, hits: reading.hits };
    }
  }
  engine.flush();
  const reading = engine.reading();
  hits.note(reading);
  return measurementOf(reading, hits.list(reading, engine.usedHits()), {
    kind,
    temperatureC,
    drumName: options.drumName ?? null,
  });
}

/** Every hit of the stream, as last heard of: a reading holds the newest only. */
class HitLog {
  private readonly bySerial = new Map<number, HitReading>();
  private readonly used = new Set<number>();

  /** hits that were used in the running; one that was taken back does not count */
  get everUsed(): number {
    return this.used.size;
  }

  note(reading: Reading): void {
    for (const hit of reading.perHit) {
      this.bySerial.set(hit.serial, hit);
      const fate = fateHere(hit, reading);
      if (fate === 'used') this.used.add(hit.serial);
      else if (fate !== 'old') this.used.delete(hit.serial);
    }
  }

  /** `used` means: behind the reading at the end, `usedAtEnd`, also where the hit has left the newest that a reading tells of. */
  list(last: Reading, usedAtEnd: readonly number[]): MeasuredHit[] {
    const usedNow = new Set(usedAtEnd);
    // where a channel hears the low end only a hit has no delay, whatever was picked
    const readable = lowEndOnly(answerOf(last)) === null;
    return [...this.bySerial.values()].map((hit) => ({
      timeSeconds: hit.timeSeconds,
      delaySamples: readable ? hit.delaySamples : null,
      polarity: readable ? hit.polarity : null,
      drum: hit.drum,
      used: usedNow.has(hit.serial),
    }));
  }
}

function measurementOf(
  reading: Reading,
  perHit: MeasuredHit[],
  { kind, temperatureC, drumName }: { kind: PairKindId; temperatureC: number; drumName: string | null },
): Measurement {
  const { sampleRate, sum } = reading;
  const said = answerOf(reading);
  const { polarity } = said;
  const delay = said.state === 'measured' ? said.delaySamples : null;
  const delaySeconds = delay === null ? null : delay / sampleRate;
  const drumNames = new Map(drumName === null || reading.drum === null ? [] : [[reading.drum, drumName]]);
  const advice = advise(reading, { kind, temperatureC, invertB: false, ended: true, drumNames });
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
