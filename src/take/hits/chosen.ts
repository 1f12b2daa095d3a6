/** Of a drum's hits those that are read: struck alone where there are enough of them, spread over the take. */
import type { Strike } from './strikes';

/** hits that a pair is read from: with 24 a long take takes a fifth longer, and no more pairs are read right (seeds 10200–10202) */
export const READ_HITS = 16;
/** with so many struck alone, those with another drum are left out */
const ENOUGH_ALONE = 8;
/** nothing else is struck within, hops */
const ALONE_BEFORE = 60;
const ALONE_AFTER = 40;

export interface DrumHits {
  /** numbers of its strikes */
  all: number[];
  /** struck alone */
  alone: number[];
  /** those that are read, ascending */
  read: number[];
}

export function hitsOfDrum(strikes: readonly Strike[], drum: number): DrumHits {
  const all = strikes.flatMap((strike, i) => (strike.drums.includes(drum) ? [i] : []));
  const leads = all.filter((i) => (strikes[i] as Strike).drums[0] === drum);
  const alone = leads.filter((i) => isAlone(strikes, i));
  return { all, alone, read: spread(alone.length >= ENOUGH_ALONE ? alone : leads) };
}

function isAlone(strikes: readonly Strike[], i: number): boolean {
  const { hop, drums } = strikes[i] as Strike;
  const before = strikes[i - 1];
  const after = strikes[i + 1];
  return (
    drums.length === 1 && !(before && hop - before.hop < ALONE_BEFORE) && !(after && after.hop - hop < ALONE_AFTER)
  );
}

function spread(hits: readonly number[]): number[] {
  if (hits.length <= READ_HITS) return [...hits];
  return Array.from({ length: READ_HITS }, (_, i) => hits[Math.floor((i * hits.length) / READ_HITS)] as number);
}
