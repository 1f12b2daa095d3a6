/** Files that are dragged over the page and dropped on it. */
import { type Accessor, createSignal } from 'solid-js';
import { type Dropped, droppedFiles } from './droppedFiles';
import { listen } from './listen';

/** A kit sheet's file comes alone and says what it is by its name; everything else is taken for recordings. */
export function sortDropped<F extends { readonly name: string }>(
  files: readonly F[],
): { sheet: F } | { recordings: F[] } {
  const [first] = files;
  return first && files.length === 1 && /\.json$/i.test(first.name) ? { sheet: first } : { recordings: [...files] };
}

export interface DropOptions {
  /** @param folder files come out of a folder: what can't be a track is left out */
  onFiles(files: File[], folder: boolean): void;
  target?: EventTarget;
}

/** @returns whether files are over the page now */
export function createDropTarget({ onFiles, target = window }: DropOptions): Accessor<boolean> {
  const [dropping, setDropping] = createSignal(false);
  const carriesFiles = (event: DragEvent): boolean => event.dataTransfer?.types.includes('Files') ?? false;
  listen<DragEvent>(target, 'dragover', (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    setDropping(true);
  });
  listen<DragEvent>(target, 'dragleave', (event) => {
    if (event.relatedTarget === null) setDropping(false);
  });
  listen<DragEvent>(target, 'drop', (event) => {
    if (!carriesFiles(event)) return;
    event.preventDefault();
    setDropping(false);
    const give = ({ files, folder }: Dropped): void => onFiles(files, folder);
    const dropped = droppedFiles(event.dataTransfer);
    if (dropped instanceof Promise) void dropped.then(give);
    else give(dropped);
  });
  return dropping;
}
