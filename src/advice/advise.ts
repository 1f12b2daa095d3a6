/** From a Reading and a pair kind to what to do, why, and how sure, in words. Pure: the same in, the same out. */
import { delaySeconds } from '../reading/acoustics';
import type { Reading } from '../reading/reading';
import type { Advice, AdviceContext } from './advice';
import { plan } from './plan/plan';
import { figuresOf } from './plan/planTypes';
import { sayPlan } from './words/sayPlan';

/** What to do about the pair. */
export function advise(reading: Reading, context: AdviceContext): Advice {
  const made = plan(reading, context);
  return { plan: made.type === 'answer' ? made.alternatives : [], ...figuresOf(made), ...sayPlan(made, context) };
}

/**
 * How the advice changes what the meter shows now: B's delay falls by `shiftSeconds` (a move, or A delayed in the mix), and B
 * is turned over or not: with the meter's own invert on, pressing B's switch and taking the invert off changes nothing, and
 * taking the invert off alone turns it.
 * Null: nothing changes, or there is no answer.
 */
export function afterAdvice(advice: Advice, context: AdviceContext): { shiftSeconds: number; invert: boolean } | null {
  const [todo] = advice.plan;
  if (todo === undefined) return null;
  const shiftSeconds =
    todo.delayMs === null ? delaySeconds(todo.moveCm ?? 0, context.temperatureC) : todo.delayMs / 1000;
  const invert = todo.invertB !== context.invertB;
  return shiftSeconds === 0 && !invert ? null : { shiftSeconds, invert };
}
