/** Advice that doesn't flicker between hits: plan/holding.ts says which stands, by the plan's action and numbers. */
import type { Reading } from '../reading/reading';
import type { Advice } from './advice';
import { createHolding } from './plan/holding';
import type { PlanContext } from './plan/planTypes';

export interface SteadyAdvice {
  /** @returns what to show for this advice and the reading that it came from. Real-time safe: no (may allocate) */
  feed(advice: Advice, reading: Reading): Advice;
  /** what is recommended by what is shown; null: nothing */
  readonly standing: PlanContext['standing'];
  /** a person changed something (pair kind, invert, swap): the next advice is shown at once */
  reset(): void;
}

export function createSteadyAdvice(): SteadyAdvice {
  const holding = createHolding();
  let shown: Advice | null = null;

  return {
    get standing() {
      const [first] = shown?.plan ?? [];
      return first
        ? { invertB: first.invertB, delayMs: first.delayMs, moveCm: first.moveCm, fine: shown?.fine ?? false }
        : null;
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
        const { sureness, notes, cautions } = next;
        // the figures beside them are the newest too: an option that takes the path away must say that path
        const plan = [...shown.plan.slice(0, 1), ...next.plan.slice(1)];
        shown = { ...shown, plan, sureness, notes, cautions };
      }
      return shown;
    },
  };
}
