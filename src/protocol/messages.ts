/**
 * Everything that passes between the page and the audio thread: one union each way, versioned.
 * Readings travel as transferred ArrayBuffers (layout: src/dsp/frame.ts); the page gives each buffer back with
 * `frame`, so the audio thread never allocates one: with none at hand it posts nothing and the newest reading waits.
 */
export const PROTOCOL_VERSION = 1;
export const PROCESSOR_NAME = 'crosshead-meter';

/** `processorOptions` of the node. */
export interface MeterProcessorOptions {
  version: number;
  /** largest |delay| looked for, ms */
  maxLagMs: number;
  swapped: boolean;
  invertB: boolean;
}

export type ToMeter =
  /** forget every hit and begin again; maxLagMs and swap take effect here */
  | { type: 'restart'; maxLagMs: number; swapped: boolean }
  /** keep the reading as it is; input is still metered for level */
  | { type: 'hold'; on: boolean }
  /** invert B in the meter only; the reading follows at once */
  | { type: 'invert-b'; on: boolean }
  /** an emptied reading buffer comes back */
  | { type: 'frame'; buffer: ArrayBuffer };

export type FromMeter =
  /** the processor runs */
  | { type: 'ready'; version: number; sampleRate: number }
  /** the newest reading, packed; give the buffer back */
  | { type: 'reading'; buffer: ArrayBuffer }
  /** something threw; the processor is silent from here on */
  | { type: 'fault'; text: string };
