/** Drums of which nothing can be said: their own mic can be compared with none. */
import type { DrumReport, TakeReport } from '../model';

/** hits struck alone, so that a reading is one */
const ENOUGH = 4;

/** The track that a drum’s others are compared with: its own, else the one that most pairs begin with. */
export function headOf({ ownTrack, pairs }: DrumReport): string | null {
  return ownTrack ?? pairs[0]?.a ?? null;
}

export const hasFewHits = ({ hitsUsable }: DrumReport): boolean => hitsUsable < ENOUGH;

/** With why; those with too few hits aside. */
export function untoldDrums({ drums }: Pick<TakeReport, 'drums'>): { drum: string; reason: string }[] {
  return drums.flatMap((drum) => {
    const own = drum.pairs.filter(({ a }) => a === headOf(drum));
    const [first] = own;
    return first && !hasFewHits(drum) && own.every(({ state }) => state !== 'measured')
      ? [{ drum: drum.drum, reason: first.reason }]
      : [];
  });
}
