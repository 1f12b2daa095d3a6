/** The presses that let a person choose a take's tracks: as files, or the folder that they lie in. */
import type { JSX } from 'solid-js';
import type { Take } from '../../state/take/take';

export function TakeFiles(props: { take: Take }): JSX.Element {
  let tracks: HTMLInputElement | undefined;
  let folder: HTMLInputElement | undefined;
  const isFirst = (): boolean => props.take.fate() === 'none';
  /** what was chosen; the same can be chosen again */
  const chosen = (field: HTMLInputElement): File[] => {
    const files = [...(field.files ?? [])];
    field.value = '';
    return files;
  };
  return (
    <>
      <input
        ref={tracks}
        id="take-files"
        class="unseen"
        type="file"
        accept="audio/*,.wav,.wave,.bwf,.rf64,.flac"
        multiple
        tabindex="-1"
        aria-label="The take’s tracks"
        onChange={(e) => {
          const files = chosen(e.currentTarget);
          if (files.length > 0) props.take.read(files);
        }}
      />
      <input
        ref={(field) => {
          field.webkitdirectory = true;
          folder = field;
        }}
        id="take-folder"
        class="unseen"
        type="file"
        tabindex="-1"
        aria-label="The folder of the tracks"
        onChange={(e) => props.take.readFolder(chosen(e.currentTarget).filter(isInFolderItself))}
      />
      <button
        type="button"
        class="press"
        classList={{ strong: isFirst() }}
        data-command="choose-take"
        onClick={() => tracks?.click()}
      >
        {isFirst() ? 'Choose the tracks' : 'Choose other tracks'}
      </button>
      <button type="button" class="press" data-command="choose-take-folder" onClick={() => folder?.click()}>
        {isFirst() ? 'Choose their folder' : 'Choose another folder'}
      </button>
    </>
  );
}

/** A folder comes with all that lies in folders within it; these are other takes, or what was made of this one. */
const isInFolderItself = ({ webkitRelativePath }: File): boolean => webkitRelativePath.split('/').length <= 2;
