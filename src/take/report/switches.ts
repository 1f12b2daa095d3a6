/** Which polarity switches to press so that most drums gain most: over all sums that were measured, each at equal levels. */
import type { DrumReport, TakeReport, TrackReport } from '../model';

/** a sum that gains more doesn't count for more, dB */
const MOST_DB = 6;
/** a switch that gains less over all its sums isn't pressed, dB */
const LEAST_DB = 1;

/** What two tracks gain where both are switched alike, or not: dB, positive: as they are. */
interface Gain {
  a: number;
  b: number;
  db: number;
}

export function switchesOf(drums: readonly DrumReport[], tracks: readonly TrackReport[]): TakeReport['polarities'] {
  const files = tracks.map(({ file }) => file);
  const gains = drums.flatMap(({ pairs }) =>
    pairs.flatMap(({ a, b, fuller, fullerDb }): Gain[] => {
      if (fullerDb === null || (fuller !== 'as-is' && fuller !== 'inverted')) return [];
      const db = Math.min(MOST_DB, fullerDb) * (fuller === 'as-is' ? 1 : -1);
      return [{ a: files.indexOf(a), b: files.indexOf(b), db }];
    }),
  );
  const invert = files.map(() => false);
  // one switch after the other, the one that gains most first, while any gains
  for (let turns = 0; turns < files.length; turns++) {
    const byTurning = files.map((_, t) => -2 * sumOf(gains, invert, t));
    const best = byTurning.indexOf(Math.max(...byTurning));
    if (!((byTurning[best] ?? 0) > LEAST_DB)) break;
    invert[best] = !invert[best];
  }
  return files.map((file, t) => ({ file, invert: invert[t] as boolean }));
}

/** What the sums with that track come to with the switches as they are, dB. */
function sumOf(gains: readonly Gain[], invert: readonly boolean[], t: number): number {
  let sum = 0;
  for (const { a, b, db } of gains) if (a === t || b === t) sum += invert[a] === invert[b] ? db : -db;
  return sum;
}
