/** What the sum says as things stand: which polarity comes out fuller in the drum's low octave, and by how much. */
import type { SumReading } from '../../reading/reading';

/** below this one polarity is as good as the other */
export const DECIDES_DB = 1;

/** The answer, in the polarity that the meter shows: `as-is` as read, `inverted` with B turned over from there. */
export interface SumVote {
  prefers: 'as-is' | 'inverted';
  /** by how much fuller, dB > 0 */
  db: number;
  lowHz: number;
  highHz: number;
}

const finite = (x: number | null): x is number => x !== null && Number.isFinite(x);

/** Null where the sum has no answer or none worth 1 dB. */
export function lowOctaveVote(sum: SumReading): SumVote | null {
  const { fuller, fullerDb, fullerLowHz, fullerHighHz } = sum;
  if (fuller !== 'as-is' && fuller !== 'inverted') return null;
  if (!finite(fullerDb) || !finite(fullerLowHz) || !finite(fullerHighHz) || Math.abs(fullerDb) < DECIDES_DB)
    return null;
  return { prefers: fuller, db: Math.abs(fullerDb), lowHz: fullerLowHz, highHz: fullerHighHz };
}
