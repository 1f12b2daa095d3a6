/** An arrival in the units of a stand, and what can be done about it: a move, or a delay later. */

import { cmPerSample } from '../../reading/acoustics';
import type { Polarity } from '../../reading/reading';
import { roundDelayMs, roundPathCm } from '../../reading/rounding';
import type { PairKind } from './pairKinds';
import type { SumVote } from './votes';

/** a move is never smaller than this many times the repeats-within */
const MOVE_PER_REPEATS = 2;

/** An arrival in the units of a stand. */
export interface Gap {
  polarity: Polarity;
  delayMs: number;
  /** path B − A, cm: positive: B hears the drum later */
  pathCm: number;
  /** repeats within, cm; 0 where unknown */
  repeatsCm: number;
  /** 90 % uncertainty, cm; null where unknown */
  uncertaintyCm: number | null;
}

/** What is read of an arrival, of whatever answer. */
export interface Arrived {
  polarity: Polarity | null;
  delaySamples: number | null;
  spreadSamples: number | null;
  uncertaintySamples: number | null;
}

/** The arrival of an answer; null where it hasn't one. */
export function gapOf(answer: Arrived, sampleRate: number, temperatureC: number): Gap | null {
  const { polarity, delaySamples, spreadSamples, uncertaintySamples } = answer;
  if (polarity === null || delaySamples === null || !Number.isFinite(delaySamples) || !(sampleRate > 0)) return null;
  const cm = cmPerSample(sampleRate, temperatureC);
  const scaled = (x: number | null): number | null => (x !== null && Number.isFinite(x) ? Math.abs(x) * cm : null);
  return {
    polarity,
    delayMs: (delaySamples / sampleRate) * 1000,
    pathCm: delaySamples * cm,
    repeatsCm: scaled(spreadSamples) ?? 0,
    uncertaintyCm: scaled(uncertaintySamples),
  };
}

/** Can the two be brought together by moving a stand? */
export function canMove(kind: PairKind, pathCm: number): boolean {
  return kind.movable && (kind.movableUpToCm === null || Math.abs(pathCm) <= kind.movableUpToCm);
}

/** The move, cm, positive: B towards the drum; null: too small to be worth it, or to be known. */
export function moveOf(kind: PairKind, gap: Gap): number | null {
  if (!canMove(kind, gap.pathCm) || gap.uncertaintyCm === null) return null;
  if (Math.abs(gap.pathCm) < Math.max(kind.toleranceCm, gap.uncertaintyCm)) return null;
  const move = pathSaidCm(gap);
  return move === 0 || Math.abs(move) < MOVE_PER_REPEATS * gap.repeatsCm ? null : move;
}

/**
 * The path as it is said, and the move that takes it away: the one rounding of both, everywhere. To 0.5 cm, from 10 cm on or
 * where it isn't known better to 1 cm; coarser, it would contradict the delay in ms beside it. How well it is known is said with it.
 */
export function pathSaidCm(gap: Pick<Gap, 'pathCm' | 'repeatsCm' | 'uncertaintyCm'>): number {
  return roundPathCm(gap.pathCm, Math.min(1, knownCm(gap) ?? gap.repeatsCm));
}

/** The same beside a plan: the move that stands and takes the path away says the path. @param moveCm null: none is advised */
export function pathShownCm(gap: Gap, moveCm: number | null): number {
  if (moveCm !== null && Math.abs(moveCm - gap.pathCm) <= Math.max(1, knownCm(gap) ?? 0)) return moveCm;
  return pathSaidCm(gap);
}

/** The delay as it is said beside that path, ms: as finely, or the two would contradict each other. */
export const delaySaidMs = (gap: Gap): number => roundDelayMs(gap.delayMs, 0);

/** How well the distance is known, cm: repeats or uncertainty, whichever is larger; null where the uncertainty isn't known. */
export function knownCm(gap: Pick<Gap, 'repeatsCm' | 'uncertaintyCm'>): number | null {
  return gap.uncertaintyCm === null ? null : Math.max(gap.repeatsCm, gap.uncertaintyCm);
}

/** Are the distances equal within the kind's tolerance, and known well enough to say so? */
export function surelyNear(kind: PairKind, gap: Gap): boolean {
  const known = knownCm(gap);
  return known !== null && Math.max(Math.abs(gap.pathCm), known) <= kind.toleranceCm;
}

/** what was near stays so up to this, times the tolerance: it doesn't come and go with every hit */
const STAYS_NEAR = 1.5;
const STAYS_KNOWN = 3;

/** The same, once it was so. */
export function stillNear(kind: PairKind, gap: Gap): boolean {
  const known = knownCm(gap);
  if (known === null || known > STAYS_KNOWN * kind.toleranceCm) return false;
  return Math.abs(gap.pathCm) <= STAYS_NEAR * kind.toleranceCm;
}

/** Farther apart than such a pair hardly ever is? */
export function isFar(kind: PairKind, gap: Gap): boolean {
  return kind.doubtBeyondCm !== null && Math.abs(gap.pathCm) > kind.doubtBeyondCm;
}

/** Does the sum, as things stand, say the opposite of the first push? */
export function conflicts(vote: SumVote | null, gap: Gap): vote is SumVote {
  return vote !== null && (vote.prefers === 'inverted') !== (gap.polarity === 'inverted');
}
