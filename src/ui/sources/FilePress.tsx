/** The press that lets a person choose recordings. */
import type { JSX } from 'solid-js';
import { useApp } from '../shared/appScope';

export function FilePress(props: { children: JSX.Element; strong?: boolean }): JSX.Element {
  const { meter } = useApp();
  let field: HTMLInputElement | undefined;
  return (
    <>
      <input
        ref={field}
        id="recording-files"
        class="unseen"
        type="file"
        accept="audio/*,.wav,.wave"
        multiple
        tabindex="-1"
        aria-label="Recording files"
        onChange={(e) => {
          meter.offerFiles([...(e.currentTarget.files ?? [])]);
          e.currentTarget.value = '';
        }}
      />
      <button
        type="button"
        class="press"
        classList={{ strong: props.strong ?? false }}
        data-command="open-recording"
        onClick={() => field?.click()}
      >
        {props.children}
      </button>
    </>
  );
}
