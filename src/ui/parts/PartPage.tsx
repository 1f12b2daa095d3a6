/** A part that is a page of its own: asked for when the page is. */
import { type JSX, onCleanup, onMount, Show } from 'solid-js';
import { handFocusOn } from './handFocusOn';
import { Meanwhile, type MeanwhileProps } from './Meanwhile';
import type { Part } from './part';

export function PartPage<T>(props: { part: Part<T>; children: (part: T) => JSX.Element }): JSX.Element {
  onMount(() => void props.part.fetch());
  return (
    <Show when={props.part.here()} keyed fallback={<MeanwhilePage part={props.part} />}>
      {(part) => props.children(part)}
    </Show>
  );
}

/** Takes the focus where the press that led here went with its page, and hands it on to the page that comes. */
function MeanwhilePage(props: MeanwhileProps): JSX.Element {
  let main: HTMLElement | undefined;
  onMount(() => {
    if (document.activeElement === document.body) main?.focus();
  });
  onCleanup(() => handFocusOn(main));
  return (
    <main tabindex="-1" ref={main}>
      <Meanwhile part={props.part} />
    </main>
  );
}
