/** When the voice speaks: an answer that has stood for a moment, and never one answer twice. */

/** an answer that is gone sooner isn't said, ms */
export const SETTLE_MS = 1200;

export interface Call {
  /** whose answer it is: another pair or drum, or hits begun again, may say the same words once more */
  of: string;
  text: string;
}

const isSame = (one: Call | null, other: Call | null): boolean => one?.of === other?.of && one?.text === other?.text;

export class SayOnce {
  private said: Call | null = null;
  private waiting: Call | null = null;
  private sinceMs = 0;

  /**
   * To be called with every reading.
   * @param call null: nothing that holds, as while a mic is moved, the input stands still, the next pair is patched
   * @returns what to say now; null: nothing
   */
  feed(call: Call | null, nowMs: number): string | null {
    if (call === null || isSame(call, this.said)) {
      this.waiting = null;
      return null;
    }
    if (!isSame(call, this.waiting)) {
      this.waiting = call;
      this.sinceMs = nowMs;
      return null;
    }
    if (nowMs - this.sinceMs < SETTLE_MS) return null;
    this.waiting = null;
    this.said = call;
    return call.text;
  }
}
