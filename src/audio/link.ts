/** What src/audio offers to src/state: one running meter, whatever feeds it. */
import type { ListeningPath, PathEvents } from '../listen/path';
import type { PairSound } from '../listen/version';
import type { KnownReading } from '../protocol/messages';
import type { Pictures, PictureWish } from '../reading/hitPictures';
import type { Reading } from '../reading/reading';

/** A fault in words for people: what is wrong, and what to do next. */
export interface Problem {
  code:
    | 'permission-refused'
    | 'no-device'
    | 'device-busy'
    | 'input-lost'
    | 'input-changed'
    | 'input-muted'
    | 'no-data'
    | 'dropped-audio'
    | 'one-channel'
    | 'mixed-channels'
    | 'processing-on'
    | 'no-worklet'
    | 'worklet-fault'
    | 'insecure-page'
    | 'not-audio'
    | 'unsupported-file'
    | 'files-differ'
    | 'empty-file'
    | 'demo-missing'
    | 'part-missing'
    | 'unknown';
  /** one sentence: what is wrong and what to do next */
  text: string;
}

/** What `listScenes` and the `open…` calls reject with, always. */
export class ProblemError extends Error {
  constructor(readonly problem: Problem) {
    super(problem.text);
    this.name = 'ProblemError';
  }
}

/** The problem in whatever was thrown. */
export function problemOf(thrown: unknown): Problem {
  if (thrown instanceof ProblemError) return thrown.problem;
  const detail = thrown instanceof Error ? thrown.message : String(thrown);
  return {
    code: 'unknown',
    text: `The audio stopped unexpectedly (${detail}); reload the page and try again.`,
  };
}

export interface MeterEvents {
  onReading(reading: Reading): void;
  onProblem(problem: Problem): void;
  /** a problem reported before went away by itself: an input came back, data arrive again, the channels differ again */
  onProblemOver?(code: Problem['code']): void;
  /** the answer to `pictures` */
  onPictures?(pictures: Pictures): void;
  /** a recording came to its end (demo scenes loop and never do) */
  onEnded(): void;
  /** 0…1 of a recording analysed or played */
  onProgress(share: number): void;
}

export type { KnownReading };

export interface MeterSettings {
  maxLagMs: number;
  swapped: boolean;
  invertB: boolean;
  /** input offset to take out: delay of B's path against A's, samples; 0 unless told */
  offsetSamples?: number;
  /** measure that offset instead of taking it out */
  settingOffset?: boolean;
  /** what was read of the pair before; nothing unless told */
  known?: KnownReading | null;
  /** frames at which the hits of one drum begin, ascending; looked for unless told */
  given?: readonly number[];
}

/** A pair of a whole take: its hits cut out of the two tracks, one after the other. */
export interface TakePairSound {
  label: string;
  /** Hz */
  sampleRate: number;
  /** full scale ±1, equal lengths */
  a: Float32Array;
  b: Float32Array;
  /** frames at which the hits begin, ascending */
  given: readonly number[];
  /** largest |delay| looked for, ms */
  maxLagMs: number;
}

/** One source running through one meter node. */
export interface MeterLink {
  readonly label: string;
  readonly sampleRate: number;
  /** of an interface, where the browser tells it */
  readonly deviceId?: string;
  /** an interface, opened as the system’s default, and nothing tells which device that is */
  readonly isUnnamed?: boolean;
  hold(on: boolean): void;
  invertB(on: boolean): void;
  /** read the drum of this id; null: the one the meter picks */
  chooseDrum(id: number | null): void;
  /** ask for pictures of the newest hits; a meter that is out of order never answers */
  pictures(wish: PictureWish): void;
  /**
   * forget all hits; swap and reach take effect; the drum is the one the meter picks again; a fault is left behind; a recording
   * that was analysed is read again
   */
  restart(settings: MeterSettings): void;
  /**
   * what the reading is of, to be listened to: a stretch of at most 20 s round these hits, or the newest 8 s of an interface
   * @param hitsSeconds of the stream: hits of the drum that is read, ascending; none: all that are found count
   * @returns null: there is none (yet)
   */
  sound(hitsSeconds: readonly number[]): Promise<PairSound | null>;
  /** of an interface only: what comes in, to the ears; nothing is opened before. @throws ProblemError */
  openLive?(events: PathEvents): Promise<ListeningPath>;
  /** audible monitoring of a demo or recording, 0…1; an interface is never heard this way */
  setMonitorGain(gain: number): void;
  close(): Promise<void>;
}

export interface InputDevice {
  deviceId: string;
  label: string;
}

export interface DemoScene {
  id: string;
  /** "Snare, top & bottom" */
  title: string;
  /** what A and B are, in words */
  a: string;
  b: string;
  kind: string;
  /** file name below the page's base */
  file: string;
  sampleRate: number;
  /** true path difference B−A, cm, at temperatureC; null where the pair has no answer */
  pathCm: number | null;
  delaySamples: number | null;
  polarity: 'same' | 'inverted' | null;
  temperatureC: number;
  note: string;
}

/** Implemented by `browserAudio` in src/audio/browserAudio.ts. */
export interface AudioDoor {
  listInputs(): Promise<InputDevice[]>;
  openInterface(deviceId: string | null, settings: MeterSettings, events: MeterEvents): Promise<MeterLink>;
  /** one stereo file, or two mono files (A, B) */
  openRecording(
    files: File[],
    mode: 'analyse' | 'play',
    settings: MeterSettings,
    events: MeterEvents,
  ): Promise<MeterLink>;
  listScenes(): Promise<DemoScene[]>;
  openScene(scene: DemoScene, settings: MeterSettings, events: MeterEvents): Promise<MeterLink>;
  /** a path for loops of this rate, beside whatever runs. To be called in a press. @throws ProblemError */
  openLoops(sampleRate: number, events: PathEvents): Promise<ListeningPath>;
  /** a demo scene's sound, without a meter. @throws ProblemError */
  sceneSound(scene: DemoScene): Promise<PairSound>;
  openTakePair(sound: TakePairSound, settings: MeterSettings, events: MeterEvents): Promise<MeterLink>;
}
