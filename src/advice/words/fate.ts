/** What became of a hit for the reading that is shown. */
import type { HitFate, ReadingReason } from '../../reading/codes';
import type { HitReading, Reading } from '../../reading/reading';

/** The channel that hears the low end only, where no arrival can be read; null: neither. */
export const lowEndOnly = ({ reason }: { reason: ReadingReason }): 'a' | 'b' | null =>
  reason === 'low-end-only-a' ? 'a' : reason === 'low-end-only-b' ? 'b' : null;

/** What became of a hit for this reading: one behind the answer of another drum is of another drum. */
export function fateHere(hit: HitReading, reading: Reading): HitFate {
  const others = hit.drum !== null && reading.drum !== null && hit.drum !== reading.drum;
  return others && hit.fate !== 'two-drums' && hit.fate !== 'too-soon' ? 'other-drum' : hit.fate;
}
