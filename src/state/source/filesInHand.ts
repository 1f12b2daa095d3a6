/** Files that were dropped or chosen and are not measured yet. They are read once beforehand, to say what they are. */
import { type Accessor, batch, createSignal } from 'solid-js';
import { type Problem, problemOf } from '../../audio/link';

/** Larger ones are not read just to look at them, bytes together. */
const LOOK_BYTES = 512 * 2 ** 20;

/** `fine`: they can be measured; `unread`: not looked at, because they are large, or what reads them couldn’t be fetched. */
export type FilesFate = 'reading' | 'fine' | 'unusable' | 'unread';

export interface FilesInHand {
  files: Accessor<File[]>;
  filesFate: Accessor<FilesFate>;
  /** names and remarks, from the files themselves; empty until they are read */
  filesLabel: Accessor<string>;
  swapFiles(): void;
}

export interface FilesInHandActions {
  /** take the first two in */
  take(list: File[]): Promise<void>;
}

/** For more than two files. */
export function tooManyText(list: readonly File[]): string {
  return `${list.length} files came at once, and only two can be used: ${list[0]?.name} and ${list[1]?.name}. If those are the wrong two, choose again.`;
}

export function createFilesInHand(onProblem: (problem: Problem) => void): FilesInHandActions & { shown: FilesInHand } {
  const [files, setFiles] = createSignal<File[]>([]);
  const [filesFate, setFate] = createSignal<FilesFate>('reading');
  const [filesLabel, setLabel] = createSignal('');
  let turn = 0;

  function settled(fate: FilesFate, label: string): void {
    batch(() => {
      setFate(fate);
      setLabel(label);
    });
  }

  async function look(): Promise<void> {
    const list = files();
    const mine = ++turn;
    settled('reading', '');
    if (list.reduce((sum, file) => sum + file.size, 0) > LOOK_BYTES) return settled('unread', '');
    // where it can’t be had that is said when the files are to be measured
    const program = await import('../../audio/recording/loadRecording').catch(() => null);
    if (program === null) {
      if (mine === turn) settled('unread', '');
      return;
    }
    try {
      const { label } = await program.loadRecording(list);
      if (mine === turn) settled('fine', label);
    } catch (thrown) {
      if (mine !== turn) return;
      batch(() => {
        settled('unusable', '');
        onProblem(problemOf(thrown));
      });
    }
  }

  return {
    shown: {
      files,
      filesFate,
      filesLabel,
      swapFiles() {
        setFiles((list) => [...list].reverse());
        if (filesFate() !== 'unusable') void look();
      },
    },
    async take(list) {
      setFiles(list.slice(0, 2));
      await look();
    },
  };
}
