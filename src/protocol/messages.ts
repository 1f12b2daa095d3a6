/**
 * Everything that passes between the page and the audio thread: one union each way, versioned.
 * Readings travel as transferred ArrayBuffers (layout: src/dsp/frame.ts); the page gives each buffer back with
 * `frame`, so the audio thread never allocates one: with none at hand it posts nothing and the newest reading waits.
 */
export const PROTOCOL_VERSION = 2;
export const PROCESSOR_NAME = 'crosshead-meter';

/** `processorOptions` of the node. */
export interface MeterProcessorOptions {
  version: number;
  /** largest |delay| looked for, ms */
  maxLagMs: number;
  swapped: boolean;
  invertB: boolean;
  /** seconds of input passed over first: an interface's stream begins with its own switching on; 0 unless told */
  skipSeconds?: number;
  /** readings a second at most; 40 unless told */
  readingsPerSecond?: number;
}

export const READINGS_PER_SECOND = 40;
/** reading buffers that travel between the two sides */
export const FRAME_POOL = 6;

export type ToMeter =
  /** forget every hit and begin again; maxLagMs and swap take effect here */
  | { type: 'restart'; maxLagMs: number; swapped: boolean }
  /** keep the reading as it is; input is still metered for level */
  | { type: 'hold'; on: boolean }
  /** invert B in the meter only; the reading follows at once */
  | { type: 'invert-b'; on: boolean }
  /** read the drum of this id; null: the loudest in A */
  | { type: 'drum'; id: number | null }
  /** the stream has ended: finish what is under way, and say so with a reading that is `last` */
  | { type: 'flush' }
  /** an emptied reading buffer comes back */
  | { type: 'frame'; buffer: ArrayBuffer };

export type FromMeter =
  /** the processor runs */
  | { type: 'ready'; version: number; sampleRate: number }
  /** the newest reading, packed; give the buffer back */
  | { type: 'reading'; buffer: ArrayBuffer; last: boolean }
  /** something threw; the processor is silent from here on */
  | { type: 'fault'; text: string };
