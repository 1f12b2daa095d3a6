/** What passes between the page and the worker that reads a take. */
import type { DrumReport, TakeProgress, TakeReport } from '../../take/model';
import type { ReadPair } from '../../take/pairs/readWhole';
import type { Told } from '../../take/told/told';

/** Page to worker: once. */
export interface ReadTake {
  files: File[];
  /** what a person said of the tracks */
  told: Told;
  temperatureC: number;
}

/** Worker to page. */
export type FromTakeWorker =
  | { type: 'progress'; progress: TakeProgress }
  /** `pairs`: of each of its pairs the whole reading */
  | { type: 'drum'; drum: DrumReport; pairs: ReadPair[] }
  | { type: 'report'; report: TakeReport }
  /** one sentence */
  | { type: 'failed'; text: string };
