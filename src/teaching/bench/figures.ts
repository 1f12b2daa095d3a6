/**
 * What the two mics make of a hit: paths, delay, pushes, levels, notches.
 *
 * The sound goes straight from the place hit to the capsule. A delay is B minus A, positive: B is later.
 */
import { delaySeconds, notchDepthDb, notchesHz, peakDb } from '../../reading/acoustics';
import type { Polarity } from '../../reading/reading';
import { capsuleAt, distanceCm, hitPlace } from './drums';
import type { Bench, BenchMic, MicId } from './model';

/** Side of the head that a mic stands on. The head goes away from the side it is hit from, and towards the other. */
export type Side = 'hit' | 'other';

export interface MicFigures {
  pathCm: number;
  /** path and delay in the mix, ms */
  arrivalMs: number;
  side: Side;
  /** first push as it leaves the mic's channel, switch and wiring counted: +1 up, −1 down */
  push: 1 | -1;
  /** re the louder of the two, dB, 0 or less */
  levelDb: number;
}

export interface BenchFigures {
  a: MicFigures;
  b: MicFigures;
  /** B's path minus A's */
  pathCm: number;
  /** delays in the mix counted */
  delayMs: number;
  polarity: Polarity;
  /** B over A, dB */
  levelDifferenceDb: number;
  /** of two mics, rising; 0 Hz where they are inverted; none where nothing is left to cancel. null: a speaker's differ, and no formula tells them */
  notchesHz: number[] | null;
  /** of two mics, re the louder alone */
  peakDb: number;
  notchDb: number;
  /** longer path over the shorter */
  ratio: number;
}

/** a mic's capsule isn't at the very place hit: nearer than this 1/r means nothing */
const NEAREST_CM = 0.5;

export function sideOf(bench: Bench, mic: MicId): Side {
  const { at, towards } = hitPlace(bench);
  const { xCm, yCm } = capsuleAt(bench, bench[mic]);
  return (xCm - at.xCm) * towards.xCm + (yCm - at.yCm) * towards.yCm > 0 ? 'hit' : 'other';
}

export function pushOf(side: Side, { inverted, kind, wiredOther }: BenchMic): 1 | -1 {
  const turned = inverted !== (kind === 'speaker' && wiredOther);
  return (side === 'hit') === turned ? 1 : -1;
}

export function figuresOf(bench: Bench): BenchFigures {
  const { at } = hitPlace(bench);
  const paths = (mic: MicId): number => Math.max(NEAREST_CM, distanceCm(capsuleAt(bench, bench[mic]), at));
  const path = { a: paths('a'), b: paths('b') };
  const nearer = Math.min(path.a, path.b);
  const one = (mic: MicId): MicFigures => {
    const side = sideOf(bench, mic);
    return {
      pathCm: path[mic],
      arrivalMs: 1000 * delaySeconds(path[mic], bench.temperatureC) + bench[mic].mixDelayMs,
      side,
      push: pushOf(side, bench[mic]),
      levelDb: bench.levels === 'equal' ? 0 : 20 * Math.log10(nearer / path[mic]),
    };
  };
  const [a, b] = [one('a'), one('b')];
  const delayMs = b.arrivalMs - a.arrivalMs;
  const polarity = a.push === b.push ? 'same' : 'inverted';
  const levelDifferenceDb = b.levelDb - a.levelDb;
  return {
    a,
    b,
    pathCm: path.b - path.a,
    delayMs,
    polarity,
    levelDifferenceDb,
    notchesHz: withSpeaker(bench) ? null : notchesHz(Math.abs(delayMs) < LEAST_DELAY_MS ? 0 : delayMs / 1000, polarity),
    peakDb: peakDb(levelDifferenceDb),
    notchDb: notchDepthDb(levelDifferenceDb),
    ratio: Math.max(path.a, path.b) / nearer,
  };
}

/** below that, rounding: its first notch would lie above 50 MHz */
export const LEAST_DELAY_MS = 1e-5;

const withSpeaker = ({ a, b }: Bench): boolean => a.kind === 'speaker' || b.kind === 'speaker';

/** First notch above 0 Hz; null: there is none up to 20 kHz. */
export const firstNotchHz = (figures: Pick<BenchFigures, 'notchesHz'>): number | null =>
  figures.notchesHz?.find((hz) => hz > 0) ?? null;
