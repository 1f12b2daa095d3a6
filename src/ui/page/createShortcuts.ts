/** The page's keys, as long as the caller's owner is there. */
import type { Accessor } from 'solid-js';
import { type Command, commandOf, HELD, isButton, isTyping, stepOf } from '../shared/keys';
import { keysAreThePages } from '../shared/ownKeys';
import { createKeyHold } from './createKeyHold';
import { listen } from './listen';

export interface ShortcutOptions {
  /** true: what lies over the page has the keys */
  off: Accessor<boolean>;
  /** whether single keys work */
  keysOn: Accessor<boolean>;
  act(command: Command): void;
  /** a key that must be held is down; null: it was let go, or has done its work */
  holding(command: Command | null): void;
  /** what can be undone; null: nothing is open that could */
  history: Accessor<{ undo(): void; redo(): void } | null>;
  target?: EventTarget;
}

export function createShortcuts({ off, keysOn, act, holding, history, target = window }: ShortcutOptions): void {
  const hold = createKeyHold({ holding, act, target });
  listen<KeyboardEvent>(target, 'keydown', (event) => {
    const { key, ctrlKey, metaKey, altKey, shiftKey, repeat } = event;
    // any other key gives up what is being held
    if (!repeat) hold.drop();
    if (off()) return;
    const focused = event.target as { tagName?: string; type?: string; dataset?: DOMStringMap } | null;
    const onButton = isButton(focused) && !keysAreThePages(focused);
    const press = { key, ctrlKey, metaKey, altKey, repeat, typing: isTyping(focused), onButton };
    const step = stepOf({ ...press, shiftKey });
    const open = history();
    if (step !== null && open !== null) {
      event.preventDefault();
      open[step]();
      return;
    }
    const command = commandOf(press, keysOn());
    if (command === null) return;
    if (command !== 'back') event.preventDefault();
    if (HELD.has(command)) hold.down(command, key);
    else act(command);
  });
}
