import type { Accessor } from 'solid-js';
import { listen } from './listen';

/** The browser asks before the page is left while something would be lost. */
export function createLeaveGuard(wouldLose: Accessor<boolean>, target: EventTarget = window): void {
  listen(target, 'beforeunload', (event) => {
    if (wouldLose()) event.preventDefault();
  });
}
