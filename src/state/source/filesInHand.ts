/** Files that were dropped or chosen and are not measured yet. They are read once beforehand, to say what they are. */
import { type Accessor, batch, createSignal } from 'solid-js';
import { guessPair } from '../../advice/names/guessPair';
import { type Problem, problemOf } from '../../audio/link';
import { type AskedPair, askedOf, type Guessed, guessedOf } from './askedPair';

/** Larger ones are not read just to look at them, bytes together. */
const LOOK_BYTES = 512 * 2 ** 20;

/** `fine`: they can be measured; `unread`: not looked at, because they are large, or what reads them couldn’t be fetched. */
export type FilesFate = 'reading' | 'fine' | 'unusable' | 'unread';

export interface FilesInHand {
  files: Accessor<File[]>;
  filesFate: Accessor<FilesFate>;
  /** names and remarks, from the files themselves; empty until they are read */
  filesLabel: Accessor<string>;
  /** what the two are: guessed from the files’ names until the person says otherwise */
  filesPair: Accessor<AskedPair>;
  /** which of that is a guess still */
  filesGuessed: Accessor<Guessed>;
  sayFilesPair(change: Partial<AskedPair>): void;
  swapFiles(): void;
}

export interface FilesInHandActions {
  /** take the first two in; A is the one that by its name comes first (above, inside, close) */
  take(list: File[]): Promise<void>;
}

/** For more than two files. */
export function tooManyText(list: readonly File[]): string {
  return `Only two of the ${list.length} files can be used: ${list[0]?.name} and ${list[1]?.name}. If those are the wrong two, choose again.`;
}

export function createFilesInHand(onProblem: (problem: Problem) => void): FilesInHandActions & { shown: FilesInHand } {
  const [files, setFiles] = createSignal<File[]>([]);
  const [filesFate, setFate] = createSignal<FilesFate>('reading');
  const [filesLabel, setLabel] = createSignal('');
  const [guess, setGuess] = createSignal(guessPair([]));
  const [filesPair, setPair] = createSignal(askedOf(guess()));
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
      filesPair,
      filesGuessed: () => guessedOf(filesPair(), guess()),
      sayFilesPair: (change) => void setPair((pair) => ({ ...pair, ...change })),
      swapFiles() {
        batch(() => {
          setFiles((list) => [...list].reverse());
          setGuess(({ a, b, ...rest }) => ({ ...rest, a: b, b: a }));
          setPair(({ labels: [one, two], ...rest }) => ({ ...rest, labels: [two, one] }));
        });
        if (filesFate() !== 'unusable') void look();
      },
    },
    async take(list) {
      const two = list.slice(0, 2);
      batch(() => {
        const next = setGuess(guessPair(two.map((file) => file.name)));
        setFiles(next.turned ? two.reverse() : two);
        setPair(askedOf(next));
      });
      await look();
    },
  };
}
