/** The round as the screen sees it. */
import type { Accessor } from 'solid-js';
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { Pair } from '../../sheet/document/model';
import type { KitSystem } from '../../sheet/kit/kitSystem';
import type { Meter } from '../meter/meterTypes';
import type { Keeper } from '../settings/keeper';
import type { Settings } from '../settings/settings';
import type { KitShelf } from '../shelf/kitShelf';
import type { PairReading, RoundMode } from './pairReading';

export interface Round extends PairReading {
  /** what the kit's readings say together; null: no kit, or more on one drum than can be compared */
  system: Accessor<KitSystem | null>;
  /** the pair in hand; null: the meter reads for itself */
  pair: Accessor<Pair | null>;
  /** what it is called: "Snare top & Snare bottom"; empty: none is in hand */
  title: Accessor<string>;
  mode: Accessor<RoundMode>;
  /** the person is still patching it: nothing read now is of this pair */
  patching: Accessor<boolean>;
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
