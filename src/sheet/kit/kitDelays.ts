/** Delays of the whole kit's microphones in the mix: for whose sake each is, or whom it goes along with. */
import { type Alternative, gainDb } from '../../advice/plan/alternatives';
import type { KitSheet, Pair } from '../document/model';

export interface KitDelay {
  /** id */
  microphone: string;
  /** above 0 */
  delayMs: number;
  /** ids of the pairs for whose sake; empty: it only goes along */
  pairs: string[];
}

/** Nearer is the same, ms: a sample at 48 kHz. */
const SAME_MS = 0.02;

/** @param delayMs of each microphone; @param pairs what each gets */
export function kitDelays(
  sheet: KitSheet,
  delayMs: ArrayLike<number>,
  pairs: readonly { pair: string; own: Alternative; gets: Alternative }[],
): KitDelay[] {
  return sheet.microphones.flatMap(({ id }, m): KitDelay[] => {
    const ms = delayMs[m] as number;
    if (ms < SAME_MS) return [];
    const meeting = pairs.filter((one) => {
      const { a, b } = sheet.pairs.find((pair) => pair.id === one.pair) as Pair;
      const { gets, own } = one;
      return gets.delayMs !== null && (gets.delayMs > 0 ? a : b) === id && (gets === own || (gainDb(gets) ?? -1) > 0);
    });
    return [{ microphone: id, delayMs: ms, pairs: meeting.map(({ pair }) => pair) }];
  });
}
