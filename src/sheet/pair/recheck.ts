/** A pair again, after a break or a knock: what changed against the reading that was accepted. */

import { pathCm } from '../../reading/acoustics';
import { furtherText, spanText } from '../../text/length';
import type { Checked, Taken } from '../document/model';

export interface Recheck {
  /**
   * same: nothing changed that can be seen · moved: B is farther or closer · polarity: it isn't what it was, switches counted ·
   * unknown: one of the two readings isn't sure, or has no delay
   */
  change: Checked['change'];
  /** by how much B is farther from the drum than then (negative: closer), path in cm; null where unknown */
  fartherCm: number | null;
  /** the two paths of which that is the difference, cm; null where unknown */
  pathsCm: [then: number, now: number] | null;
  /** a smaller change than this wouldn't be seen, cm */
  seenFromCm: number | null;
}

/** Nobody puts a stand back more closely than this: it isn't a knock, cm. */
const LEAST_CM = 0.5;
/** Of the scatter of the two: the bias between the two microphones is the same both times, and cancels. */
const SPREAD_FACTOR = 3;
/** Fewer of the hits behind a reading: it was taken from those that show it, in a groove, and may lie on a neighbouring swing within its accuracy. */
const FEW = 0.75;
/** A reading that tells no scatter counts as this good, ms */
const UNKNOWN_SPREAD_MS = 0.02;

/** @param now as read just now, by the switches as they stand */
export function recheck(then: Taken, now: Taken): Recheck {
  const unknown: Recheck = { change: 'unknown', fartherCm: null, pathsCm: null, seenFromCm: null };
  if (!then.sure || !now.sure || then.polarity === null || now.polarity === null) return unknown;
  const switched = (then.aInverted !== now.aInverted) !== (then.bInverted !== now.bInverted);
  const polarity = (then.polarity === now.polarity) === switched;
  if (then.delayMs === null || now.delayMs === null) return polarity ? { ...unknown, change: 'polarity' } : unknown;
  // as far as sound goes in the air of each day; or the air was the same and only the figure for it was put right:
  // what either of the two explains is no move
  const nowCm = pathCm(now.delayMs / 1000, now.temperatureC);
  const byAir = pathCm(then.delayMs / 1000, then.temperatureC);
  const byDelay = pathCm(then.delayMs / 1000, now.temperatureC);
  const thenCm = Math.abs(nowCm - byAir) < Math.abs(nowCm - byDelay) ? byAir : byDelay;
  const fartherCm = nowCm - thenCm;
  const spreadMs = Math.hypot(then.spreadMs ?? UNKNOWN_SPREAD_MS, now.spreadMs ?? UNKNOWN_SPREAD_MS);
  const seenMs = Math.max(SPREAD_FACTOR * spreadMs, coarseMs(then), coarseMs(now));
  const seenFromCm = Math.max(LEAST_CM, pathCm(seenMs / 1000, now.temperatureC));
  const moved = Math.abs(fartherCm) > seenFromCm;
  return { change: polarity ? 'polarity' : moved ? 'moved' : 'same', fartherCm, pathsCm: [thenCm, nowCm], seenFromCm };
}

const coarseMs = ({ agreement, uncertaintyMs }: Taken): number =>
  agreement !== null && agreement < FEW ? (uncertaintyMs ?? 0) : 0;

/** Said for the time of the accepted reading where that isn't known. */
export const LAST_READING = 'the last reading';

/**
 * The same in one sentence.
 * @param label of B, the microphone that is told about
 * @param at when the accepted reading was taken, as it is said: "14:10"
 */
export function recheckText(
  { change, fartherCm, seenFromCm }: Omit<Recheck, 'pathsCm'>,
  label: string,
  at: string,
): string {
  const seen = seenFromCm === null ? '' : ` (a change of ${spanText(seenFromCm)} would show)`;
  switch (change) {
    case 'same':
      return `${label}: same as at ${at}${seen}.`;
    case 'moved':
      return `${label}: ${furtherText(fartherCm as number)} than at ${at}. Stop the drummer, then check both stands.`;
    case 'polarity':
      return `${label}: polarity inverted since ${at}. Stop the drummer, monitors down, then check the polarity switch and the cable.`;
    case 'unknown':
      return `${label}: can’t be compared with ${at}, because one of the two readings is uncertain.`;
  }
}
