import type { Reading } from '../state/words';

/** The next choice after the present one: the loudest in A, then each drum. */
export function nextDrum(reading: Reading | null): number | null {
  const ids = reading?.drums.map((drum) => drum.id) ?? [];
  if (!reading?.drumChosen) return ids[0] ?? null;
  return ids[ids.indexOf(reading.drum ?? 0) + 1] ?? null;
}
