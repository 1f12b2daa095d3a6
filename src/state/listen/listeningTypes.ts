/** What listening is to the screen. */
import type { Accessor } from 'solid-js';
import type { Matched } from '../../listen/matching';
import type { Stretch } from '../../listen/stretch';
import type { Put, Start, Version } from '../../listen/version';
import type { SoundSource } from './soundSource';

export interface ListeningOptions {
  source: SoundSource;
  /** at least one; the first is what the others are matched with. Told as the inputs carry A and B */
  versions: Accessor<readonly Version[]>;
  /** how the first is put that the others are matched with; A+B unless told */
  matchTo?: Put | undefined;
  /** where B starts isn't anybody's choice meanwhile: levels are equal */
  blind?: Accessor<boolean>;
}

/** Why nothing is heard. */
export type SilentReason =
  | { code: 'no-sound' }
  | { code: 'no-hit' }
  /** live sound ran away and was muted */
  | { code: 'runaway' }
  | { code: 'failed'; text: string };

/** Live sound. `asked`: the warning is up. */
export type LiveState = 'off' | 'asked' | 'on';

export interface Listening {
  versions: Accessor<readonly Version[]>;
  /** id of the version that is heard */
  chosen: Accessor<string>;
  choose(id: string): void;
  put: Accessor<Put>;
  setPut(put: Put): void;
  stretch: Accessor<Stretch>;
  setStretch(stretch: Stretch): void;
  start: Accessor<Start>;
  setStart(start: Start): void;
  /** 0…1; 0 whenever sound begins or ends */
  level: Accessor<number>;
  /** up only by what can be heard: not while `tooSoft` */
  setLevel(level: number): void;
  /** what is heard is silent, or so much softer than the rest that whoever set the level by it would be hit by the next */
  tooSoft: Accessor<boolean>;
  /** a loop goes round */
  playing: Accessor<boolean>;
  /** it is being fetched */
  starting: Accessor<boolean>;
  /** `starting`, and there is no whole hit yet: it begins with the first */
  waiting: Accessor<boolean>;
  /** in a press: begins, or takes the newest hits where mics are open. Never rejects */
  play(): Promise<void>;
  stop(): void;
  /** hits in the loop; null: nothing was looped yet */
  hits: Accessor<number | null>;
  /** what the version that is heard was matched with; null: nothing was measured yet */
  matched: Accessor<Matched | null>;
  /** all versions were turned down for one that nearly cancelled, and come slowly back up */
  rising: Accessor<boolean>;
  silent: Accessor<SilentReason | null>;
  /** mics are open, so that what comes in could be heard */
  canLive: Accessor<boolean>;
  live: Accessor<LiveState>;
  /** puts the warning up */
  askLive(): void;
  /** the warning was read: in a press. Never rejects */
  confirmLive(): Promise<void>;
  endLive(): void;
}
