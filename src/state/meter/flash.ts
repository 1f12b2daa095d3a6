/** At most three flashes in any second (WCAG 2.3.1): a hit indicator at sixteenths would exceed it. */
export const FLASH_INTERVAL_MS = 400;

export class FlashLimiter {
  private lastMs = Number.NEGATIVE_INFINITY;

  /** @returns whether a flash may start at `nowMs` */
  allow(nowMs: number): boolean {
    if (nowMs - this.lastMs < FLASH_INTERVAL_MS) return false;
    this.lastMs = nowMs;
    return true;
  }
}
