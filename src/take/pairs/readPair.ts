/** One drum's hits in two tracks through the live engine: its own stages for every hit, its own decision. */
import { type MeasuredHit, type Measurement, measurementOf } from '../../advice/measurement';
import { type PairKindId, pairKind } from '../../advice/plan/pairKinds';
import { lowEndOnly } from '../../advice/plan/reasons';
import { Engine, type EngineOptions } from '../../dsp/engine';
import { GivenHits } from '../../dsp/hit/givenHits';
import { Rooms } from '../../dsp/signal/room';
import { ONE_DRUM } from '../../dsp/tuning/oneDrum';
import { answerOf, type Reading } from '../../reading/reading';
import type { PieceLengths } from './pieces';

/** overheads and rooms hear a drum up to so much later, ms: 11.7 m */
const FAR_LAG_MS = 34;

export interface PairHits {
  sampleRate: number;
  lengths: PieceLengths;
  /** of each hit: frame of its piece at which it begins in A, and second of the take at which its piece begins */
  hits: readonly { begin: number; pieceSeconds: number }[];
  /** of each hit, A's and B's piece */
  a: readonly Float32Array[];
  b: readonly Float32Array[];
  kind: PairKindId;
  /** one of the two hears the whole kit, or nobody knows where it stands */
  far: boolean;
  temperatureC: number;
  drumName: string;
  /** what the two are called */
  labels: readonly [string, string];
}

export type PairReading = Measurement;

/** How far it is looked for a delay, ms. */
export const reachMs = ({ far, kind }: Pick<PairHits, 'far' | 'kind'>): number =>
  far ? FAR_LAG_MS : pairKind(kind).maxLagMs;

/**
 * @param keep is given the reading that the answer is made of
 * @param rooms where pairs are read one after the other: what the engine needs is made once
 */
export function readPair(
  pair: PairHits,
  keep: (reading: Reading) => void = () => undefined,
  rooms = new Rooms(),
): PairReading {
  const { sampleRate, lengths, hits } = pair;
  const given = hits.map(({ begin }, i) => i * lengths.frames + begin);
  const options: EngineOptions = {
    tuning: ONE_DRUM,
    maxLagMs: reachMs(pair),
    hits: new GivenHits(given),
    meters: false,
  };
  const engine = rooms.lend(() => new Engine(sampleRate, options));
  hits.forEach((_, i) => {
    engine.push(pair.a[i] as Float32Array, pair.b[i] as Float32Array);
  });
  engine.flush();
  const reading = engine.reading();
  keep(reading);
  return measurementOf(reading, hitsOf(reading, engine.usedHits(), pair), pair);
}

/** Each hit with its time in the take. */
function hitsOf(reading: Reading, used: readonly number[], { sampleRate, lengths, hits }: PairHits): MeasuredHit[] {
  const readable = lowEndOnly(answerOf(reading)) === null;
  return reading.perHit.flatMap((hit) => {
    const frame = Math.round(hit.timeSeconds * sampleRate);
    const piece = hits[Math.floor(frame / lengths.frames)];
    if (!piece) return [];
    return {
      timeSeconds: piece.pieceSeconds + (frame % lengths.frames) / sampleRate,
      delaySamples: readable ? hit.delaySamples : null,
      polarity: readable ? hit.polarity : null,
      drum: hit.drum,
      used: used.includes(hit.serial),
    };
  });
}
