/** The files that were dropped; of a folder those in it that may be tracks. */
import { isAudioName } from '../../text/trackNames';

/** What was dropped. */
export interface Dropped {
  files: File[];
  /** folders were among it */
  folder: boolean;
}

/** To be called before the event is over, as browsers ask for. @returns at once, where no folder has to be looked into */
export function droppedFiles(transfer: DataTransfer | null): Dropped | Promise<Dropped> {
  const files = [...(transfer?.files ?? [])];
  const folders = [...(transfer?.items ?? [])].flatMap((item) => {
    const entry = item.webkitGetAsEntry?.() ?? null;
    return entry?.isDirectory ? [entry as FileSystemDirectoryEntry] : [];
  });
  if (folders.length === 0) return { files, folder: false };
  const names = new Set(folders.map(({ name }) => name));
  const alone = files.filter(({ name }) => !names.has(name));
  return Promise.all(folders.map(filesIn)).then((lists) => ({ files: [...alone, ...lists.flat()], folder: true }));
}

/** A folder that can't be read has no files. */
async function filesIn(folder: FileSystemDirectoryEntry): Promise<File[]> {
  const reader = folder.createReader();
  const entries: FileSystemEntry[] = [];
  // they come by the hundred, until none comes
  for (;;) {
    const some = await new Promise<FileSystemEntry[]>((give) => reader.readEntries(give, () => give([])));
    if (some.length === 0) break;
    entries.push(...some);
  }
  const tracks = entries.filter(({ isFile, name }) => isFile && isAudioName(name));
  const files = await Promise.all(
    tracks.map(
      (entry) => new Promise<File | null>((give) => (entry as FileSystemFileEntry).file(give, () => give(null))),
    ),
  );
  return files.filter((file) => file !== null);
}
