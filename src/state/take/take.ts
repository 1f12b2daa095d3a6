/** A take in hand: its files, how far it is read, and what came of it. */
import { type Accessor, batch, createSignal } from 'solid-js';
import type { TakeEvents, TakeRun } from '../../audio/take/readTakeFiles';
import type { DrumReport, TakeProgress, TakeReport } from '../../take/model';
import { capital } from '../../text/sentence';

export type TakeFate = 'none' | 'reading' | 'read' | 'cancelled' | 'failed';

export interface Take {
  files: Accessor<readonly File[]>;
  fate: Accessor<TakeFate>;
  progress: Accessor<TakeProgress>;
  /** those that are read so far */
  drums: Accessor<readonly DrumReport[]>;
  report: Accessor<TakeReport | null>;
  /** one sentence; null: nothing went wrong */
  problem: Accessor<string | null>;
  /** the drum whose pairs are looked at; null: all */
  open: Accessor<string | null>;
  setOpen(drum: string | null): void;
  read(files: readonly File[]): void;
  again(): void;
  cancel(): void;
}

export type ReadTakeFiles = (files: File[], temperatureC: number, events: TakeEvents) => TakeRun;

const AT_START: TakeProgress = { share: 0, doing: 'Opening the files' };

export function createTake(readFiles: ReadTakeFiles, temperatureC: () => number): Take {
  const [files, setFiles] = createSignal<readonly File[]>([]);
  const [fate, setFate] = createSignal<TakeFate>('none');
  const [progress, setProgress] = createSignal(AT_START);
  const [drums, setDrums] = createSignal<readonly DrumReport[]>([]);
  const [report, setReport] = createSignal<TakeReport | null>(null);
  const [problem, setProblem] = createSignal<string | null>(null);
  const [open, setOpen] = createSignal<string | null>(null);
  let run: TakeRun | null = null;

  function begin(): void {
    run?.cancel();
    batch(() => {
      setFate('reading');
      setProgress(AT_START);
      setDrums([]);
      setReport(null);
      setProblem(null);
      setOpen(null);
    });
    run = readFiles([...files()], temperatureC(), {
      onProgress: setProgress,
      onDrum: (drum) => setDrums((list) => [...list, drum]),
      onReport(done) {
        batch(() => {
          setReport(done);
          setDrums(done.drums);
          setFate('read');
        });
      },
      onFailed(text) {
        batch(() => {
          setProblem(capital(text));
          setFate('failed');
        });
      },
    });
  }

  return {
    files,
    fate,
    progress,
    drums,
    report,
    problem,
    open,
    setOpen,
    read(list) {
      setFiles(list);
      begin();
    },
    again: begin,
    cancel() {
      run?.cancel();
      run = null;
      setFate('cancelled');
    },
  };
}
