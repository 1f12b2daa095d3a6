/** The value before the present one: what a person compares with after a move or an invert. */
import type { Polarity } from '../../reading/reading';

export interface PlainValue {
  polarity: Polarity;
  delayMs: number;
  pathCm: number;
}

/** a change of path worth calling another value, cm */
const PATH_STEP_CM = 0.5;
/** hits for which the new value must stand */
const HITS_TO_SETTLE = 2;

export class PreviousValue {
  private anchor: PlainValue | null = null;
  private latest: PlainValue | null = null;
  private pendingHits: number | null = null;
  previous: PlainValue | null = null;

  /** A measured value (never one that is provisional), and the hits heard so far. */
  update(value: PlainValue, hits: number): void {
    if (this.anchor === null || this.latest === null) {
      this.anchor = value;
      this.latest = value;
      return;
    }
    const same = value.polarity === this.anchor.polarity && Math.abs(value.pathCm - this.anchor.pathCm) < PATH_STEP_CM;
    if (same) {
      this.latest = value;
      this.pendingHits = null;
      return;
    }
    this.pendingHits ??= hits;
    if (hits - this.pendingHits < HITS_TO_SETTLE - 1) return;
    this.previous = this.latest;
    this.anchor = value;
    this.latest = value;
    this.pendingHits = null;
  }

  /** A person changed something (restart, invert, swap): what stood until now is the previous value. */
  turn(): void {
    if (this.latest !== null) this.previous = this.latest;
    this.anchor = null;
    this.latest = null;
    this.pendingHits = null;
  }

  clear(): void {
    this.turn();
    this.previous = null;
  }
}
