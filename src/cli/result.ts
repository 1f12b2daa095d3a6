/** What the measuring command gives: what was read, beside what was heard. */
import type { Measurement } from '../advice/measurement';

/** The JSON object: what was read, and what was heard. */
export interface CommandResult extends Measurement {
  file: string;
  bFile: string | null;
  channels: number;
  durationSeconds: number;
  a: number;
  b: number;
  /** a file ends before its header says so: read as far as it goes */
  truncated: boolean;
  /** where it holds values that are no sound: left out, the rest is read */
  gaps: { fromSeconds: number; seconds: number }[];
}
