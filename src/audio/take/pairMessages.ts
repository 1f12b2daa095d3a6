/** What passes between the page and the worker that cuts one pair's hits out of a take. */
import type { HitPlaces } from '../../take/pairs/readWhole';
import type { Told } from '../../take/told/told';

/** Page to worker: once. */
export interface CutPair {
  /** all of the take, as it was read: they are laid on one beginning */
  files: File[];
  told: Told;
  /** files, as `TakeTrack.file` */
  a: string;
  b: string;
  places: HitPlaces;
}

/** Worker to page: the pieces one after the other, or why not, in one sentence. */
export type FromPairWorker = { type: 'cut'; a: Float32Array; b: Float32Array } | { type: 'failed'; text: string };
