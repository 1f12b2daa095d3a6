/** A take in hand: its files, what its tracks are, how far it is read, and what came of it. */
import { type Accessor, batch, createSignal } from 'solid-js';
import type { AskedTake, TakeEvents, TakeRun } from '../../audio/take/readTakeFiles';
import type { DrumReport, TakeProgress, TakeReport, TrackReport } from '../../take/model';
import type { ReadPair } from '../../take/pairs/readWhole';
import type { Told, ToldMic } from '../../take/told/told';
import { capital } from '../../text/sentence';
import { isAudioName } from '../../text/trackNames';
import type { Keeper } from '../settings/keeper';
import { createToldMemory } from './toldMemory';

export type TakeFate = 'none' | 'reading' | 'read' | 'cancelled' | 'failed';

export interface Take {
  files: Accessor<readonly File[]>;
  fate: Accessor<TakeFate>;
  progress: Accessor<TakeProgress>;
  /** as they were read last: they stay while the same files are read again */
  tracks: Accessor<readonly TrackReport[]>;
  /** what a person said of tracks, of this take or of one before */
  told: Accessor<Told>;
  /** null: its name says it. The take is read again, by what is said now */
  tell(file: string, mic: ToldMic | null): void;
  /** those that are read so far */
  drums: Accessor<readonly DrumReport[]>;
  /** of each pair of those drums the whole reading */
  pairs: Accessor<readonly ReadPair[]>;
  report: Accessor<TakeReport | null>;
  /** when it was read; null: it isn't */
  readAt: Accessor<Date | null>;
  /** of the air, as it was read with */
  readWithC: Accessor<number>;
  /** one sentence; null: nothing went wrong */
  problem: Accessor<string | null>;
  /** the drum whose pairs are looked at; null: all */
  open: Accessor<string | null>;
  setOpen(drum: string | null): void;
  read(files: readonly File[]): void;
  /** of a folder: what can't be a track is passed over */
  readFolder(files: readonly File[]): void;
  again(): void;
  cancel(): void;
}

export type ReadTakeFiles = (asked: AskedTake, events: TakeEvents) => TakeRun;

export interface TakeOptions {
  readFiles: ReadTakeFiles;
  temperatureC(): number;
  keeper: Keeper;
  now(): Date;
}

const AT_START: TakeProgress = { share: 0, doing: 'Opening the files' };
const NO_TRACKS = 'There is no audio file in this folder itself; choose the one that the tracks lie in, WAV or FLAC.';

/** as the command reads a folder */
const byName = (p: File, q: File): number => p.name.localeCompare(q.name, 'en', { numeric: true });

export function createTake({ readFiles, temperatureC, keeper, now }: TakeOptions): Take {
  const memory = createToldMemory(keeper);
  const [files, setFiles] = createSignal<readonly File[]>([]);
  const [fate, setFate] = createSignal<TakeFate>('none');
  const [progress, setProgress] = createSignal(AT_START);
  const [tracks, setTracks] = createSignal<readonly TrackReport[]>([]);
  const [told, setTold] = createSignal<Told>(memory.recall());
  const [drums, setDrums] = createSignal<readonly DrumReport[]>([]);
  const [pairs, setPairs] = createSignal<readonly ReadPair[]>([]);
  const [report, setReport] = createSignal<TakeReport | null>(null);
  const [readAt, setReadAt] = createSignal<Date | null>(null);
  const [readWithC, setReadWithC] = createSignal(temperatureC());
  const [problem, setProblem] = createSignal<string | null>(null);
  const [open, setOpen] = createSignal<string | null>(null);
  let run: TakeRun | null = null;

  function clear(next: TakeFate, why: string | null): void {
    run?.cancel();
    run = null;
    batch(() => {
      setFate(next);
      setProgress(AT_START);
      setDrums([]);
      setPairs([]);
      setReport(null);
      setReadAt(null);
      setProblem(why);
      setOpen(null);
    });
  }

  function begin(): void {
    clear('reading', null);
    setReadWithC(temperatureC());
    run = readFiles(
      { files: [...files()], told: told(), temperatureC: readWithC() },
      {
        onProgress: setProgress,
        onDrum: (drum, read) =>
          batch(() => {
            setDrums((list) => [...list, drum]);
            setPairs((list) => [...list, ...read]);
          }),
        onReport(done) {
          batch(() => {
            setReport(done);
            setTracks(done.tracks);
            setDrums(done.drums);
            setReadAt(now());
            setFate('read');
          });
        },
        onFailed(text) {
          batch(() => {
            setProblem(capital(text));
            setFate('failed');
          });
        },
      },
    );
  }

  function read(list: readonly File[]): void {
    batch(() => {
      setFiles([...list].sort(byName));
      setTracks([]);
    });
    begin();
  }

  return {
    files,
    fate,
    progress,
    tracks,
    told,
    drums,
    pairs,
    report,
    readAt,
    readWithC,
    problem,
    open,
    setOpen,
    read,
    tell(file, mic) {
      memory.remember(file, mic);
      setTold(memory.recall());
      if (files().length > 0) begin();
    },
    readFolder(list) {
      const found = list.filter(({ name }) => isAudioName(name));
      if (found.length > 0) return read(found);
      setFiles([]);
      setTracks([]);
      clear('failed', NO_TRACKS);
    },
    again: begin,
    cancel() {
      run?.cancel();
      run = null;
      setFate('cancelled');
    },
  };
}
