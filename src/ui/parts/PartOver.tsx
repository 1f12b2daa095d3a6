/** A part that lies over the page: asked for when it is opened, and closed like it meanwhile. */
import { type JSX, onMount, Show } from 'solid-js';
import { giveFocusBack, holdFocus } from '../shared/holdFocus';
import { Key } from '../shared/Key';
import { Meanwhile } from './Meanwhile';
import type { Part } from './part';

interface PartOverProps<T> {
  part: Part<T>;
  onClose: () => void;
  /** what must be had in any case */
  instead?: JSX.Element;
  children: (part: T) => JSX.Element;
}

export function PartOver<T>(props: PartOverProps<T>): JSX.Element {
  giveFocusBack();
  onMount(() => void props.part.fetch());
  return (
    <Show when={props.part.here()} keyed fallback={<MeanwhileOver {...props} />}>
      {(part) => props.children(part)}
    </Show>
  );
}

function MeanwhileOver<T>(props: PartOverProps<T>): JSX.Element {
  let panel: HTMLDivElement | undefined;
  holdFocus(() => panel);
  return (
    <div
      class="meanwhile-over"
      role="dialog"
      aria-modal="true"
      aria-label={props.part.name}
      tabindex="-1"
      ref={panel}
      onKeyDown={(e) => {
        if (e.key !== 'Escape') return;
        e.stopPropagation();
        props.onClose();
      }}
    >
      <Meanwhile part={props.part} />
      {props.instead}
      <button type="button" class="press" data-command="back" onClick={() => props.onClose()}>
        Back to the page <Key of="back" />
      </button>
    </div>
  );
}
