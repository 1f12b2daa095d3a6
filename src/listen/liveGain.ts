/** Open mics: a version may be turned down to the loudness of the first one, never up. */
import type { Matched } from './matching';

/**
 * @param own, first how the version and the first one are matched as loops; null: nothing was measured yet
 * @param raisedDb B's trim over the first one's, dB
 * @returns what it is turned by, so that neither mic comes out louder than in the first one; and what there is to be told of it
 */
export function liveMatch(
  own: Matched | null,
  first: Matched | null,
  raisedDb: number,
): { playedDb: number; matched: Matched | null } {
  const firstDb = first?.gainDb ?? 0;
  const playedDb = Math.min(own?.gainDb ?? firstDb, firstDb - Math.max(0, raisedDb));
  if (own === null || own.gainDb === null) return { playedDb, matched: own };
  return { playedDb, matched: { gainDb: playedDb, shortDb: own.shortDb + own.gainDb - playedDb } };
}
