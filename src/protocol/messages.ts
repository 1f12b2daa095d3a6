/**
 * Everything that passes between the page and the audio thread: one union each way, versioned.
 * Readings (layout: src/reading/frame.ts) go through shared memory (frameRing.ts) where the page may have it, and no message goes
 * either way while nobody presses anything. Elsewhere they travel as copies of one array, and nothing comes back but a word now and
 * then how many were seen: messages both ways leave garbage on the audio thread's heap.
 */
import type { PictureWish } from '../reading/hitPictures';

export const PROTOCOL_VERSION = 7;
export const PROCESSOR_NAME = 'crosshead-meter';

/** What a pair's accepted reading said, as the inputs carry it: a few hits that show it are enough. */
export interface KnownReading {
  /** arrival at B minus arrival at A */
  delayMs: number;
  sign: 1 | -1;
  /** 90 %; null: nobody knows */
  uncertaintyMs: number | null;
}

/** `processorOptions` of the node. */
export interface MeterProcessorOptions {
  version: number;
  /** largest |delay| looked for, ms */
  maxLagMs: number;
  swapped: boolean;
  invertB: boolean;
  /** input offset to take out, samples; 0 unless told */
  offsetSamples?: number;
  /** measure that offset: both inputs are fed the same source */
  settingOffset?: boolean;
  /** what was read of the pair before; nothing unless told */
  known?: KnownReading | null;
  /** frames at which the hits of one drum begin, counted from the stream's start; looked for unless told */
  given?: readonly number[];
  /** seconds of input passed over first: an interface's stream begins with its own switching on; 0 unless told */
  skipSeconds?: number;
  /** an interface feeds it: what isn't taken in time is lost; false unless told */
  captured?: boolean;
  /** false: nobody hears a pause, so nothing is made ready beforehand; true unless told */
  live?: boolean;
  /** readings a second at most; 40 unless told */
  readingsPerSecond?: number;
  /** readings go through this memory (frameRing.ts); as messages unless given */
  ring?: SharedArrayBuffer;
}

export const READINGS_PER_SECOND = 40;
/** the page tells after this many readings that it has seen them */
export const SEEN_TOGETHER = 40;
/** with this many on their way to a page that is busy, the newest reading waits */
export const MOST_UNSEEN = 2 * SEEN_TOGETHER;

/** `stamp` counts what changes the meaning of a reading; each reading carries the newest one, so that older ones are known. */
export type ToMeter =
  /** forget every hit and begin again with the loudest drum in A; reach, swap and input offset take effect here */
  | {
      type: 'restart';
      stamp: number;
      maxLagMs: number;
      swapped: boolean;
      offsetSamples?: number;
      settingOffset?: boolean;
      known?: KnownReading | null;
      /** from here on readings go through this memory: the one before is too small for the reach */
      ring?: SharedArrayBuffer;
    }
  /** keep the reading as it is; input is still metered for level */
  | { type: 'hold'; on: boolean }
  /** invert B in the meter only; the reading follows at once */
  | { type: 'invert-b'; stamp: number; on: boolean }
  /** read the drum of this id; null: the one the meter picks */
  | { type: 'drum'; stamp: number; id: number | null }
  /** frames were lost somewhere in the last so many seconds */
  | { type: 'lost'; seconds: number }
  /** send pictures of the kept hits */
  | { type: 'pictures'; wish: PictureWish }
  /** the stream has ended: finish what is under way, and say so with a reading that is `last` */
  | { type: 'flush' }
  /** so many more readings have been taken in */
  | { type: 'seen'; readings: number };

export type FromMeter =
  /** the processor runs */
  | { type: 'ready'; version: number; sampleRate: number }
  /** the newest reading, packed: where no memory is shared, and the answer to `flush` */
  | { type: 'reading'; frame: Float64Array; last: boolean }
  /** the pictures that were asked for (layout: src/reading/hitPictures.ts) */
  | { type: 'pictures'; pictures: Float32Array }
  /** something threw; the processor is silent from here on */
  | { type: 'fault'; text: string };
