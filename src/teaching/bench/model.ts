/**
 * The teaching bench: one drum or a kit in one plane, seen from the side, where it is hit, and two mics that hear the hit.
 *
 * Places are cm, x to the right and y up. Everything here is plain data; nothing is measured, all of it follows from the
 * places, the switches and the air.
 */

export type DrumId = 'snare' | 'kick' | 'kit';
/** Which drum is hit, and so where. */
export type HitId = 'snare' | 'kick' | 'floor-tom';
export type MicId = 'a' | 'b';

export interface Spot {
  xCm: number;
  yCm: number;
}

export interface BenchMic {
  /** the front of the grille: what a person sees; the mic looks at the place hit */
  grille: Spot;
  /** from the grille back to the capsule, cm, 0…8 */
  bodyCm: number;
  /** its own polarity switch */
  inverted: boolean;
  /** a delay set for it in the mix, ms, 0…20 */
  mixDelayMs: number;
  /** a speaker used as a mic is slow, and hears the lows only */
  kind: 'mic' | 'speaker';
  /** of a speaker used as a mic: wired the other way round */
  wiredOther: boolean;
  phantomOn: boolean;
}

export interface Bench {
  drum: DrumId;
  hit: HitId;
  a: BenchMic;
  b: BenchMic;
  /** brought to equal level, or by distance alone (1/r: half as loud a pressure at twice the distance) */
  levels: 'equal' | 'distance';
  temperatureC: number;
  /** how often the slow hit was watched */
  watched: number;
}

export const MIC_IDS: readonly MicId[] = ['a', 'b'];
export const BODY_MOST_CM = 8;
export const MIX_DELAY_MOST_MS = 20;
export const TEMPERATURES_C = { least: 0, most: 40 } as const;

/** What can be set beside the drawing. */
export const CONTROL_IDS = [
  'drum',
  'hit',
  'invert-a',
  'invert-b',
  'body-a',
  'body-b',
  'delay-a',
  'delay-b',
  'phantom-b',
  'kind-b',
  'levels',
  'temperature',
] as const;
export type ControlId = (typeof CONTROL_IDS)[number];
