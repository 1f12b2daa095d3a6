/** What passes between the page and the worker that reads a take. */
import type { DrumReport, TakeProgress, TakeReport } from '../../take/model';

/** Page to worker: once. */
export interface ReadTake {
  files: File[];
  temperatureC: number;
}

/** Worker to page. */
export type FromTakeWorker =
  | { type: 'progress'; progress: TakeProgress }
  | { type: 'drum'; drum: DrumReport }
  | { type: 'report'; report: TakeReport }
  /** one sentence */
  | { type: 'failed'; text: string };
