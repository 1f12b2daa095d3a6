/** Two channels through the engine, and the answer as the measuring command gives it. No process, no files. */

import { type MeasuredHit, type Measurement, measurementOf } from '../advice/measurement';
import { fateHere } from '../advice/plan/hitFates';
import { type PairKindId, pairKind } from '../advice/plan/pairKinds';
import { lowEndOnly } from '../advice/plan/reasons';
import { Engine } from '../dsp/engine';
import { TUNING } from '../dsp/tuning';
import { answerOf, type HitReading, type Reading } from '../reading/reading';

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

/** Fill A and B (of equal length) with frames from `fromFrame` on; returns the frames written, 0 at the end. */
export type BlockSource = (fromFrame: number, a: Float32Array, b: Float32Array) => number;

const BLOCK_FRAMES = 4096;
/** the newest hits stay in a reading for much longer than this, so none is missed between two looks */
const LOOK_SECONDS = 0.5;
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
