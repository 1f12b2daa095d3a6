/** Placeholder while the estimator is written: the surface that everything else builds on. */
import type { Reading } from './reading';

export interface EngineOptions {
  /** largest |delay| looked for, ms; 11 (3.8 m) unless told, 34 (11.7 m) for rooms */
  maxLagMs?: number;
}

/** One per stream. Everything is allocated in the constructor. */
export declare class Engine {
  constructor(sampleRate: number, options?: EngineOptions);
  readonly sampleRate: number;
  /** doubles in a frame */
  readonly frameLength: number;
  /** Blocks of any length, A and B of the same length. Real-time safe: yes. NaN and Inf count as 0. */
  push(a: Float32Array, b: Float32Array): void;
  /** End of a file: finish what is under way. Real-time safe: no. */
  flush(): void;
  /** Forget every hit. Real-time safe: yes. */
  restart(): void;
  /** Invert B in the reading only; follows at once. Real-time safe: yes. */
  setInvertB(on: boolean): void;
  /** Keep the reading; go on metering levels. Real-time safe: yes. */
  setHold(on: boolean): void;
  /** Write the newest reading; `out` must have length frameLength. Real-time safe: yes. */
  writeFrame(out: Float64Array): void;
  /** The newest reading. Real-time safe: no (allocates). */
  reading(): Reading;
}
