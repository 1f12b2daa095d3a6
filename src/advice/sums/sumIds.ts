/** The meter's numbers that have a sum. */
export type SumId =
  | 'delay'
  | 'path'
  | 'accuracy'
  | 'spread'
  | 'move'
  | 'low-octave'
  | 'overall'
  | 'upper-band'
  | 'over-frequency'
  | 'notch'
  | 'correlation'
  | 'peak'
  | 'rms';
