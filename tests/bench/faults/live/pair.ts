/** The pair that every live fault is tried on, and what a certain reading of it may be. */
import { captureWav, hits, later } from '../../../support/sound/signals';

export interface Truth {
  polarity: 'same' | 'inverted';
  delayMs: number;
}

const RATE = 44_100;
const LAG = 9;
/** what counts as wrong in README: 2.4 cm */
const TOLERANCE_MS = 0.07;

/** B 7 cm behind A, inverted */
export const PAIR: Truth = { polarity: 'inverted', delayMs: (LAG / RATE) * 1000 };

export function pairChannels(seconds = 10): [a: Float32Array, b: Float32Array] {
  const a = hits(seconds, 0.5, 1);
  const b = later(a, LAG, -0.7);
  const floor = hits(seconds, 2 * seconds, 101);
  for (let i = 0; i < b.length; i++) b[i] = (b[i] as number) + (floor[i] as number);
  return [a, b];
}

/** What the fake device plays. @returns the path */
export const pairWav = (): string => captureWav('fault-pair', ...pairChannels());

export const isTrue = (one: Truth | null, truths: readonly Truth[]): boolean =>
  one !== null &&
  truths.some(({ polarity, delayMs }) => polarity === one.polarity && Math.abs(delayMs - one.delayMs) <= TOLERANCE_MS);

export const furtherBy = (samples: number): Truth => ({ ...PAIR, delayMs: PAIR.delayMs + (samples / RATE) * 1000 });
export const SWAPPED: Truth = { polarity: 'inverted', delayMs: -PAIR.delayMs };
