/** The page's door to the worker that reads a take. */
import type { DrumReport, TakeProgress, TakeReport } from '../../take/model';
import type { ReadPair } from '../../take/pairs/readWhole';
import type { FromTakeWorker, ReadTake } from './takeMessages';

export interface TakeEvents {
  onProgress(progress: TakeProgress): void;
  /** @param pairs of each of its pairs the whole reading */
  onDrum(drum: DrumReport, pairs: ReadPair[]): void;
  onReport(report: TakeReport): void;
  /** one sentence: what is wrong and what to do */
  onFailed(text: string): void;
}

export interface TakeRun {
  /** nothing more is said */
  cancel(): void;
}

const NOT_LOADED =
  'The program that reads takes could not be loaded from this page’s server; check that the server is running, then try again.';

/** @param openWorker makes the worker of takeWorker.ts */
export function readTakeFiles(openWorker: () => Worker, asked: ReadTake, events: TakeEvents): TakeRun {
  const worker = openWorker();
  worker.onmessage = ({ data }: MessageEvent<FromTakeWorker>) => {
    if (data.type === 'progress') return events.onProgress(data.progress);
    if (data.type === 'drum') return events.onDrum(data.drum, data.pairs);
    worker.terminate();
    if (data.type === 'report') events.onReport(data.report);
    else events.onFailed(data.text);
  };
  worker.onerror = () => {
    worker.terminate();
    events.onFailed(NOT_LOADED);
  };
  worker.postMessage(asked);
  return { cancel: () => worker.terminate() };
}
