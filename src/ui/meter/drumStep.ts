import type { Reading } from '../../reading/reading';

/** a choice shows in the readings within this time, ms */
const HEARD_MS = 500;

/** The key for drums: from the meter’s pick (null) through each drum and back, also when it is pressed faster than the readings follow. */
export class DrumStep {
  private last: number | null = null;
  private lastMs = Number.NEGATIVE_INFINITY;

  next(reading: Reading, nowMs: number): number | null {
    const ids = reading.drums.map((drum) => drum.id);
    const shown = reading.drumChosen ? reading.drum : null;
    const present = nowMs - this.lastMs < HEARD_MS ? this.last : shown;
    this.last = (present === null ? ids[0] : ids[ids.indexOf(present) + 1]) ?? null;
    this.lastMs = nowMs;
    return this.last;
  }
}
