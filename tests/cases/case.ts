/**
 * A case: two microphones at a drawn kit, everything that sounds, everything that goes wrong, and what is true of it.
 * Plain data; `drawCase` makes one from a seed, `renderCase` makes it sound.
 *
 * Seeds: 10000…19999 are for tuning, 20000…29999 are quoted. Both follow one distribution; a threshold is never chosen on
 * a quoted seed.
 */

import type { Drum, Side } from '../../samples/model/drum';
import type { MicrophoneResponse } from '../../samples/model/microphone';
import type { Point, Room } from '../../samples/model/room';
import type { PairKindId } from '../../src/advice/plan/pairKinds';
import type { Polarity } from '../../src/reading/reading';

export const TUNING_SEEDS = { from: 10000, to: 19999 } as const;
export const QUOTED_SEEDS = { from: 20000, to: 29999 } as const;

/** What a case is hard by; each has its row in the table. */
export const CASE_GROUPS = [
  'clean',
  'noise',
  'hum',
  'weak channel',
  'offset',
  'clipped',
  'bleed',
  'room',
  'unlike',
  'groove',
  'moving',
  'knocked',
  'low-end driver',
  'dead input',
  'unrelated',
  'one signal',
] as const;
export type CaseGroup = (typeof CASE_GROUPS)[number];

export interface Strike {
  timeSeconds: number;
  /** amplitude, 1 = medium */
  force: number;
  place: Point;
}

/** How unlike a drum sounds in two directions: none of it touches the first half millisecond's push. */
export interface Spread {
  /** the stroke's noise that both microphones hear alike falls by 60 dB in this time, s */
  sharedDecay60Seconds: number;
  /** each microphone's own noise: level re the shared one, and its rise, later than the push's, s */
  ownLevel: number;
  ownRiseSeconds: number;
  /** share of the wires' power that both hear alike */
  sharedWires: number;
  /** each mode's start at each microphone, radians; see Drum.modeTurns */
  turnsA: readonly number[];
  turnsB: readonly number[];
}

/** Metal: a burst of noise, partly the same in every direction. */
export interface Metal {
  decay60Seconds: number;
  riseSeconds: number;
  /** share of the power that both microphones hear alike */
  shared: number;
}

/** A tom that rings along: tones that swell and die away. */
export interface Ring {
  tones: {
    hz: number;
    /** re a push of force 1 */
    level: number;
    decay60Seconds: number;
    /** as a decay: of what is missing at first */
    rise60Seconds: number;
    /** its start at each microphone, radians */
    turnA: number;
    turnB: number;
  }[];
}

/** One of drum, metal and ring. */
export interface CaseSource {
  id: string;
  drum: Drum | null;
  metal: Metal | null;
  ring: Ring | null;
  /** of a drum */
  spread: Spread | null;
  strikes: Strike[];
  /** the side that each microphone hears; null: it doesn't hear this source */
  a: Side | null;
  b: Side | null;
}

/** Electronics of one channel. Levels are RMS re the channel's own peak, dB; −Infinity: none. */
export interface CaseChannel {
  /** highest peak, dBFS; above 0 it clips there */
  peakDbfs: number;
  noiseDb: number;
  noiseColour: 'white' | 'pink';
  humDb: number;
  humHz: number;
  /** DC, fraction of full scale */
  dc: number;
  bits: 16 | 24;
}

export interface CaseMicrophone extends CaseChannel {
  at: Point;
  /** where it stands in the end, and when it moves there, s; a knock takes no time */
  move: { to: Point; fromSeconds: number; toSeconds: number } | null;
  response: MicrophoneResponse;
  /** a loudspeaker's cone as a microphone: nothing above this; order 2…4 */
  driver: { lowPassHz: number; order: number } | null;
  /** null: no reflections (inside a shell) */
  room: Room | null;
  detours: { extraCm: number; share: number }[];
  /** nothing arrives: cable out */
  dead: boolean;
}

export interface KitCase {
  seed: number;
  group: CaseGroup;
  kind: PairKindId;
  /** id of the source that the pair stands for */
  asked: string;
  sampleRate: number;
  seconds: number;
  /** the converter's filter: causal, or linear-phase with its pre-ringing */
  converter: 'causal' | 'linear';
  /** B's wiring */
  wiredInverted: boolean;
  /** B is A, times this: both inputs fed one signal */
  copyGain: number | null;
  sources: CaseSource[];
  a: CaseMicrophone;
  b: CaseMicrophone;
  /** why no delay and polarity can be told, null where they can */
  noAnswer: 'low end only' | 'nothing in common' | 'dead input' | 'one signal' | null;
}

export interface HitTruth {
  /** the earlier arrival, s of the stream */
  timeSeconds: number;
  /** by path difference, B − A, samples at the case's rate */
  delaySamples: number;
}

/** One drum's truth, by geometry. */
export interface DrumTruth {
  id: string;
  /** hi-hat, ride, crash */
  metal: boolean;
  polarity: Polarity;
  /** mean over the hits, samples; of a moved microphone only the hits count */
  delaySamples: number;
  hits: HitTruth[];
}
