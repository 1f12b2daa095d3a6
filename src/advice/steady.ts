/** Advice that doesn't flicker between hits: plan/holding.ts says which stands, by the plan's action and numbers. */
import type { Reading } from '../reading/reading';
import type { Advice } from './advice';
import { type Action, type Alternative, isSame } from './plan/alternatives';
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

/** what a list of options says of two that are the same one, dB */
const SAME_GAIN_DB = 0.25;

const isAlike = (x: Action, y: Action): boolean =>
  x.invertB === y.invertB &&
  (x.delayMs === null) === (y.delayMs === null) &&
  (x.moveCm === null) === (y.moveCm === null);

const saysSame = (x: Alternative, y: Alternative): boolean =>
  isSame(x, y) && isNear(x.lowDb, y.lowDb) && isNear(x.allDb, y.allDb);
const isNear = (x: number | null, y: number | null): boolean =>
  x === null || y === null ? x === y : Math.abs(x - y) < SAME_GAIN_DB;

/** What is recommended stays, the others are the newest; those that say the same stay the same objects, for somebody may be pressing them. */
function withOptions(shown: readonly Alternative[], next: readonly Alternative[]): readonly Alternative[] {
  const [first] = shown;
  if (!first) return shown;
  const itself = next.findIndex((one) => isAlike(one, first));
  const others = next
    .filter((_, i) => i !== itself)
    .map((one) => shown.find((before) => before !== first && saysSame(before, one)) ?? one);
  const plan = [first, ...others];
  return plan.length === shown.length && plan.every((one, i) => one === shown[i]) ? shown : plan;
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
        shown = { ...shown, plan: withOptions(shown.plan, next.plan), sureness, notes, cautions };
      }
      return shown;
    },
  };
}
