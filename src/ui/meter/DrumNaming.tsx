/** A drum that is heard is given a name: a usual one by a press, any other typed. */
import { For, type JSX, onCleanup, onMount, Show } from 'solid-js';
import { DRUM_NAME_LETTERS, USUAL_DRUMS } from '../../text/names';
import { useApp } from '../shared/appScope';
import { giveFocusBack } from '../shared/holdFocus';

export function DrumNaming(props: { id: number; name: string | null; onDone: () => void }): JSX.Element {
  const { meter } = useApp();
  let place: HTMLFormElement | undefined;
  let field: HTMLInputElement | undefined;
  const give = (text: string): void => {
    meter.nameDrum(props.id, text);
    props.onDone();
  };
  onMount(() => {
    giveFocusBack();
    place?.querySelector('button')?.focus();
    // only this closes: what lies under it stays
    const onKey = (event: KeyboardEvent): void => {
      if (event.key !== 'Escape') return;
      event.stopPropagation();
      props.onDone();
    };
    place?.addEventListener('keydown', onKey);
    onCleanup(() => place?.removeEventListener('keydown', onKey));
  });
  return (
    <form
      class="drum-naming"
      aria-label="Name of this drum"
      ref={place}
      onSubmit={(event) => {
        event.preventDefault();
        const typed = field?.value.trim() ?? '';
        if (typed === '') props.onDone();
        else give(typed);
      }}
    >
      <For each={USUAL_DRUMS}>
        {(name) => (
          <button type="button" class="press" aria-pressed={props.name === name} onClick={() => give(name)}>
            {name}
          </button>
        )}
      </For>
      <input
        ref={field}
        type="text"
        data-name-of="heard-drum"
        maxlength={DRUM_NAME_LETTERS}
        placeholder="another name"
        aria-label="Another name"
        value={props.name === null || USUAL_DRUMS.includes(props.name) ? '' : props.name}
      />
      <button type="submit" class="press">
        Done
      </button>
      <Show when={props.name !== null}>
        <button type="button" class="press" onClick={() => give('')}>
          No name
        </button>
      </Show>
    </form>
  );
}
