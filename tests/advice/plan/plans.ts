/** Plans of made-up readings, at 20 °C and with the meter's own invert off unless told otherwise. */
import type { PairKindId } from '../../../src/advice/plan/pairKinds';
import { plan } from '../../../src/advice/plan/plan';
import { figuresOf, type Note, type Plan, type PlanContext } from '../../../src/advice/plan/planTypes';
import type { Reading } from '../../../src/reading/reading';
import type { Flat } from '../../support/readings/flat';
import { CM_PER_SAMPLE } from '../readings';

export const METRES_PER_SECOND = 343.21;

export function about(kind: PairKindId, r: Reading, more: Partial<PlanContext> = {}): Plan {
  return plan(r, { kind, temperatureC: 20, invertB: false, ...more });
}

/** @throws Error where the plan is of another type */
export function planOf<T extends Plan['type']>(
  type: T,
  kind: PairKindId,
  r: Reading,
  more: Partial<PlanContext> = {},
): Extract<Plan, { type: T }> {
  const made = about(kind, r, more);
  if (made.type !== type) throw new Error(`a plan of the type ${made.type}`);
  return made as Extract<Plan, { type: T }>;
}

export function brief(made: Plan): [string, number | null, number | null] {
  const { action, moveCm, delayLaterMs } = figuresOf(made);
  return [action, moveCm, delayLaterMs];
}

export function noted<C extends Note['code']>(made: Plan, code: C): Extract<Note, { code: C }> | undefined {
  return made.notes.find((note): note is Extract<Note, { code: C }> => note.code === code);
}

/** 90 % uncertainty of the path, cm; null: not known */
export const known = (cm: number | null): Partial<Flat> => ({
  uncertaintySamples: cm === null ? null : cm / CM_PER_SAMPLE,
});
