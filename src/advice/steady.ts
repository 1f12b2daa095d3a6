/** Advice that doesn't flicker between hits: plan/holding.ts says which stands, by the plan's action and numbers. */
import type { Reading } from '../reading/reading';
import type { Advice } from './advice';
import type { Action } from './plan/alternatives';
import { createHolding } from './plan/holding';

export interface SteadyAdvice {
  /** @returns what to show for this advice and the reading that it came from. Real-time safe: no (may allocate) */
  feed(advice: Advice, reading: Reading): Advice;
  /** what is recommended by what is shown; null: nothing */
  readonly standing: Action | null;
  /** a person changed something (pair kind, invert, swap): the next advice is shown at once */
  reset(): void;
}

export function createSteadyAdvice(): SteadyAdvice {
  const holding = createHolding();
  let shown: Advice | null = null;

  return {
    get standing(): Action | null {
      const [first] = shown?.plan ?? [];
      return first ? { invertB: first.invertB, delayMs: first.delayMs, moveCm: first.moveCm } : null;
    },

    reset(): void {
      holding.reset();
      shown = null;
    },

    feed(next: Advice, reading: Reading): Advice {
      const held = holding.feed(next, reading);
      if (held === 'next' || shown === null) {
        shown = next;
      } else if (held === 'shown-with-newest-beside') {
        const { plan, moveCm, delayLaterMs, text, callOut } = shown;
        shown = { ...next, plan, moveCm, delayLaterMs, text, callOut };
      }
      return shown;
    },
  };
}
