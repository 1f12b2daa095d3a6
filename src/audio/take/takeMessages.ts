/** What passes between the page and the workers that read a take, and between these. */
import type { DrumReport, TakeProgress, TakeReport } from '../../take/model';
import type { ReadPair } from '../../take/pairs/readWhole';
import type { ScannedTrack } from '../../take/scan/levelScan';
import type { DrumTask, HeardTracks, LabelledHits } from '../../take/steps/labelHits';
import type { ReadDrum } from '../../take/steps/readDrum';
import type { Told } from '../../take/told/told';

/** Page to worker: once, the first one each. */
export type ToTakeWorker = ReadTake | HelpTake;

/** To the one that leads. */
export interface ReadTake {
  type: 'read';
  files: File[];
  /** what a person said of the tracks */
  told: Told;
  temperatureC: number;
  /** to the others, who do the listening and reading */
  hands: MessagePort[];
}

/** To each of the others. */
export interface HelpTake {
  type: 'help';
  lead: MessagePort;
}

/** The one that leads to the page. */
export type FromTakeWorker =
  | { type: 'progress'; progress: TakeProgress }
  /** `pairs`: of each of its pairs the whole reading */
  | { type: 'drum'; drum: DrumReport; pairs: ReadPair[] }
  | { type: 'report'; report: TakeReport }
  /** one sentence */
  | { type: 'failed'; text: string };

/** The one that leads to a hand: the files first, then one task after the other. */
export type ToHand =
  /** `tracks`: what was found in them, which the hand must find as well */
  | { type: 'files'; files: File[]; told: Told; tracks: FoundTrack[] }
  | { type: 'scan'; tracks: number[] }
  | { type: 'label'; heard: HeardTracks }
  | { type: 'drum'; task: DrumTask };

export interface FoundTrack {
  file: string;
  sampleRate: number;
  frames: number;
}

/** A hand to the one that leads: one `share` or more, then what came of the task. */
export type FromHand =
  | { type: 'share'; share: number }
  | { type: 'scanned'; scans: ScannedTrack[] }
  | { type: 'labelled'; labelled: LabelledHits }
  | { type: 'drum'; drum: ReadDrum }
  /** this task: one sentence */
  | { type: 'refused'; text: string }
  /** this hand: one sentence */
  | { type: 'failed'; text: string };

/** What is handed over with them, not copied: the one that only waits would hold it long after its use. */
export const buffersOf = (scans: readonly (ScannedTrack | null)[]): ArrayBuffer[] => [
  ...new Set(scans.flatMap((scan) => scan?.bands.map((band) => band.buffer as ArrayBuffer) ?? [])),
];
