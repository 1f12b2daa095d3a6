/** What a scene of the demo kit is made of. */
import type { Drum, Side } from './drum';
import type { MicrophoneResponse } from './microphone';
import type { Point, Room } from './room';

/** One thing that sounds in the scene. */
export type Source = DrumSource | CymbalSource;

export interface DrumSource {
  id: string;
  drum: Drum;
  /** where the blows land on average */
  place: Point;
  /** deviation of the place across the head, cm */
  scatterCm: number;
  /** blows in the loop, evenly spread apart from the player's timing */
  blows: number;
  /** offset of the pattern, in shares of the blows' spacing */
  offset: number;
  /** deviation of the timing, s, and of the force, dB */
  timingSeconds: number;
  forceDb: number;
  /** level re the drum played at medium force, dB */
  levelDb: number;
}

export interface CymbalSource {
  id: string;
  cymbalAt: Point;
  blows: number;
  offset: number;
  levelDb: number;
}

export interface SceneMicrophone {
  words: string;
  at: Point;
  /** side of the struck drum that it is on */
  side: Side;
  response: MicrophoneResponse;
  /** ids of the sources that reach it */
  hears: string[];
  room: Room | null;
  /** detours by hoop, shell or the other head: extra path, cm, and share of the pressure */
  detours: { extraCm: number; share: number }[];
  /** highest peak of the loop, dBFS: what the preamp was set for */
  peakDbfs: number;
  /** preamp noise, RMS re full scale, dB */
  noiseDbfs: number;
  /** nothing arrives: the cable is out, and levels other than the noise mean nothing */
  dead?: boolean;
}

export interface Scene {
  id: string;
  title: string;
  /** a pair kind of the program */
  kind: string;
  sources: Source[];
  /** the loop's length, s */
  seconds: number;
  /** the source whose arrival both hear, the loudest in A; null where none can be told */
  struck: string | null;
  /** further drums that both hear, each with its own answer, from the side that faces them */
  alsoStruck?: readonly string[];
  a: SceneMicrophone;
  b: SceneMicrophone;
  note: string;
}

export function isDrum(source: Source): source is DrumSource {
  return 'drum' in source;
}
