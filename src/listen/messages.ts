/** What page and audio thread tell each other about what is heard. */
import type { Mix } from './version';

export const LISTEN_PROCESSOR = 'crosshead-listen';

export interface ListenOptions {
  /** what comes in is heard; else what is sent as a loop */
  isLive: boolean;
  swapped: boolean;
}

export type ToListen =
  | { type: 'loop'; a: Float32Array; b: Float32Array }
  | { type: 'mix'; mix: Mix }
  /** 0…1 */
  | { type: 'level'; level: number }
  | { type: 'play'; on: boolean }
  /** live: what is A and what is B */
  | { type: 'swap'; on: boolean };

/** `runaway`: it muted itself. `fault`: it is silent from here on. */
export type FromListen = { type: 'runaway' } | { type: 'fault' };
