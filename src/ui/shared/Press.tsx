/** A press that has a key of its own. */
import type { JSX } from 'solid-js';
import { Key } from './Key';
import { type Command, KEY_OF } from './keys';
import { leaveKeysToPage } from './ownKeys';

export function Press(props: {
  of: Command;
  children: JSX.Element;
  onPress: () => void;
  pressed?: boolean;
  disabled?: boolean;
  title?: string;
  strong?: boolean;
}): JSX.Element {
  return (
    <button
      type="button"
      class="press"
      classList={{ strong: props.strong ?? false }}
      data-command={props.of}
      aria-pressed={props.pressed}
      aria-keyshortcuts={KEY_OF[props.of] === 'Esc' ? 'Escape' : KEY_OF[props.of]}
      disabled={props.disabled}
      title={props.title}
      onClick={(e) => {
        // after a press by pointer Enter is the page's again, and doesn't press the same button twice
        if (e.detail > 0) leaveKeysToPage(e.currentTarget);
        props.onPress();
      }}
    >
      {props.children} <Key of={props.of} />
    </button>
  );
}
