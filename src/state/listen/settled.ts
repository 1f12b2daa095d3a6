import { type Accessor, createEffect, createSignal, onCleanup, untrack } from 'solid-js';
import type { Version } from '../../listen/version';

/** what says the same isn't told again */
export const SAME = { equals: (x: unknown, y: unknown): boolean => JSON.stringify(x) === JSON.stringify(y) };

/** figures that are dragged settle for so long before they are measured, ms */
const SETTLE_MS = 40;

/** The list as it is at once; figures in it that change follow when they have stood still for a moment. */
export function createSettled(versions: Accessor<readonly Version[]>): Accessor<readonly Version[]> {
  const [settled, setSettled] = createSignal<readonly Version[]>(untrack(versions), SAME);
  const ids = (list: readonly Version[]): string => list.map(({ id }) => id).join('\n');
  let timer: ReturnType<typeof setTimeout> | undefined;
  createEffect(() => {
    const now = versions();
    if (ids(now) !== ids(untrack(settled))) {
      clearTimeout(timer);
      timer = undefined;
      setSettled(now);
    } else
      timer ??= setTimeout(() => {
        timer = undefined;
        setSettled(untrack(versions));
      }, SETTLE_MS);
  });
  onCleanup(() => clearTimeout(timer));
  return settled;
}
