/** Undo and redo over whole values: what was changed is never changed in place. */

export interface History<T> {
  past: readonly T[];
  present: T;
  future: readonly T[];
}

/** so many steps back */
export const MOST_STEPS = 200;

export const historyOf = <T>(present: T): History<T> => ({ past: [], present, future: [] });

/** A step forward; what had been undone is gone. The same value again is no step. */
export function did<T>({ past, present, future }: History<T>, next: T): History<T> {
  if (next === present) return { past, present, future };
  return { past: [...past, present].slice(-MOST_STEPS), present: next, future: [] };
}

/** The history itself where there is nothing to undo. */
export function undone<T>(history: History<T>): History<T> {
  const { past, present, future } = history;
  if (past.length === 0) return history;
  return { past: past.slice(0, -1), present: past.at(-1) as T, future: [present, ...future] };
}

/** The history itself where there is nothing to do again. */
export function redone<T>(history: History<T>): History<T> {
  const { past, present, future } = history;
  const [next, ...rest] = future;
  if (future.length === 0) return history;
  return { past: [...past, present], present: next as T, future: rest };
}
