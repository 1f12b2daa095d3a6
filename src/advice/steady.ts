/** Advice that doesn't flicker between hits: plan/holding.ts says which stands, by the plan's action and numbers. */
import type { Reading } from '../reading/reading';
import type { Advice } from './advice';
import { createHolding } from './plan/holding';

export interface SteadyAdvice {
  /** @returns what to show for this advice and the reading that it came from. Real-time safe: no (may allocate) */
  feed(advice: Advice, reading: Reading): Advice;
  /** a person changed something (pair kind, invert, swap): the next advice is shown at once */
  reset(): void;
}

export function createSteadyAdvice(): SteadyAdvice {
  const holding = createHolding();
  let shown: Advice | null = null;

  return {
    reset(): void {
      holding.reset();
      shown = null;
    },

    feed(next: Advice, reading: Reading): Advice {
      const held = holding.feed(next, reading);
      if (held === 'next' || shown === null) {
        shown = next;
      } else if (held === 'shown-with-newest-beside') {
        const { moveCm, delayLaterMs, text, callOut } = shown;
        shown = { ...next, moveCm, delayLaterMs, text, callOut };
      }
      return shown;
    },
  };
}
