/** Keys that must be held: a touch in passing does nothing, and the keyboard's own repeating neither. */
import { onCleanup } from 'solid-js';
import type { Command } from '../shared/keys';
import { listen } from './listen';

/** ms */
export const HOLD_MS = 600;

export interface KeyHoldOptions {
  /** what is being held; null: nothing (any more) */
  holding(command: Command | null): void;
  act(command: Command): void;
  target: EventTarget;
}

export interface KeyHold {
  /** its key went down for the first time: another one that was held is let go */
  down(command: Command, key: string): void;
  /** whatever is held is given up */
  drop(): void;
}

/** Lets go when the key comes up or the page loses the keyboard, for as long as the caller's owner is there. */
export function createKeyHold({ holding, act, target }: KeyHoldOptions): KeyHold {
  let timer: ReturnType<typeof setTimeout> | undefined;
  let held = '';
  const drop = (): void => {
    if (held === '') return;
    clearTimeout(timer);
    held = '';
    holding(null);
  };
  // with Shift let go first, the same key comes up as the other case
  listen<KeyboardEvent>(target, 'keyup', ({ key }) => {
    if (key.toLowerCase() === held) drop();
  });
  listen(target, 'blur', drop);
  onCleanup(drop);
  return {
    down(command, key) {
      drop();
      held = key.toLowerCase();
      holding(command);
      timer = setTimeout(() => {
        drop();
        act(command);
      }, HOLD_MS);
    },
    drop,
  };
}
