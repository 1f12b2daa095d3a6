/** The press that lets a person choose a take's tracks. */
import type { JSX } from 'solid-js';
import type { Take } from '../../state/take/take';

export function TakeFiles(props: { take: Take; children: JSX.Element }): JSX.Element {
  let field: HTMLInputElement | undefined;
  return (
    <>
      <input
        ref={field}
        id="take-files"
        class="unseen"
        type="file"
        accept="audio/*,.wav,.wave,.bwf,.rf64,.flac"
        multiple
        tabindex="-1"
        aria-label="The take’s tracks"
        onChange={(e) => {
          const files = [...(e.currentTarget.files ?? [])];
          if (files.length > 0) props.take.read(files);
          e.currentTarget.value = '';
        }}
      />
      <button
        type="button"
        class="press"
        classList={{ strong: props.take.fate() === 'none' }}
        data-command="choose-take"
        onClick={() => field?.click()}
      >
        {props.children}
      </button>
    </>
  );
}
