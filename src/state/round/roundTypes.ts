/** The round as the screen sees it. */
import type { Accessor } from 'solid-js';
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { Pair, Taken } from '../../sheet/document/model';
import type { KitSystem } from '../../sheet/kit/kitSystem';
import type { Recheck } from '../../sheet/pair/recheck';
import type { Meter } from '../meter/meterTypes';
import type { Keeper } from '../settings/keeper';
import type { Settings } from '../settings/settings';
import type { KitShelf } from '../shelf/kitShelf';
import type { Feed } from './roundWords';

/** measure: to be accepted · check: a second look at what was accepted */
export type RoundMode = 'measure' | 'check';

export interface Change {
  /** ISO 8601, UTC */
  at: string;
  text: string;
}

/** What is read of the pair in hand. */
export interface PairReading {
  /** as read now, as it would be kept; null: nothing yet, or nothing of this pair */
  now: Accessor<Taken | null>;
  /** the first reading of this turn, with which the present one is compared */
  first: Accessor<Taken | null>;
  /** against what was accepted; null: it wasn't, nothing is read yet, or which of several drums it is can't be told */
  compared: Accessor<Recheck | null>;
  /** several drums are heard, and none of them is known to be the one that was accepted */
  whichDrum: Accessor<boolean>;
  /** what changed while accepted pairs were running, the newest first */
  changes: Accessor<Change[]>;
}

export interface Round extends PairReading {
  /** what the kit's readings say together; null: no kit */
  system: Accessor<KitSystem | null>;
  /** the pair in hand; null: the meter reads for itself */
  pair: Accessor<Pair | null>;
  /** what it is called: "Snare top & Snare bottom"; empty: none is in hand */
  title: Accessor<string>;
  mode: Accessor<RoundMode>;
  /** the person is still patching it: nothing read now is of this pair */
  patching: Accessor<boolean>;
  /** patching, and what the meter reads is another's: the last pair's, another example's, or the same one's as it isn't any more */
  covered: Accessor<boolean>;
  /** where the pair in hand comes from */
  feed: Accessor<Feed>;
  /** what it needs before it can be read: "Patch Snare top (input 3) to 1 …"; empty: none is in hand */
  bring: Accessor<string>;
  /** what the last press did, or why it did nothing; empty after the next one */
  said: Accessor<string>;
  initials: Accessor<string>;
  setInitials(text: string): void;
  /** the scene of the demo kit that is of this pair; null: none */
  scene: Accessor<string | null>;
  begin(id: string, mode?: RoundMode): void;
  /** the pair that comes next, or back to the sheet */
  goOn(): void;
  /** a second look at all that was accepted */
  beginCheck(): void;
  /** the microphones are on the inputs: from here on hits count */
  patched(): void;
  /** Enter: patched, or accept what is sure, or what the second look found */
  enter(): void;
  acceptUnsure(): void;
  /** in a second look: the present reading stands from now on */
  takeNew(): void;
  leaveOnPurpose(note: string): void;
  /**
   * what Enter asks once where the pair would be accepted against the plan: "The plan says invert Snare bottom: accept as it is,
   * on purpose?"; null: nothing. It goes away by itself when the plan is done or the pair is another
   */
  asking: Accessor<string | null>;
  /** of what is asked, all that the plan wants can be done in the mix: it is no move */
  mayBeForMix: Accessor<boolean>;
  /** accepted as left on purpose, with why */
  acceptAnyway(reason: string): void;
  /** accepted, and what the plan says is to be done in the mix */
  acceptForMix(): void;
  dontAccept(): void;
  /** B was inverted at its switch (which 1: A) */
  inverted(which: 'a' | 'b'): void;
  putOff(): void;
  /** of the pair in hand, on the sheet; false: none is in hand */
  setKind(kind: PairKindId): boolean;
  /** true: said why not; else the person may go on and swap A and B */
  refusesSwap(): boolean;
  /** everything that was read of it in this turn is forgotten, and its hits begin again */
  anew(): void;
  /** out of the round; the meter goes on */
  stop(): void;
}

export interface RoundOptions {
  meter: Meter;
  shelf: KitShelf;
  settings: Settings;
  keeper: Keeper;
  now(): Date;
}
