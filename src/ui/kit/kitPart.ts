/** What the kit's part of the page is once it is here: the kit at work, and the screens that show it. */
import type { Accessor, Component } from 'solid-js';
import type { RoundCallView } from '../../state/callOut/callOutView';
import type { Kit } from '../../state/kit';
import type { Sum } from '../../text/sum';
import type { Command } from '../shared/keys';

export type RoundCommand = Extract<
  Command,
  'accept' | 'accept-unsure' | 'a-inverted' | 'b-inverted' | 'leave-so' | 'put-off'
>;

export interface KitPart extends Kit {
  /** the note of a pair that is left on purpose is being written */
  leaving: Accessor<boolean>;
  setLeaving(on: boolean): void;
  /** what was wrong with the sheet's file that was brought last; empty: nothing */
  problem: Accessor<string>;
  /** a sheet's file that a person chose or dropped: opened, or `problem` says what is wrong */
  take(file: File): Promise<void>;
  /** the filled example, the same way */
  loadExample(): Promise<void>;
  /** the open kit's file, into the downloads */
  exportFile(): void;
  /** the round's keys; they do nothing where no pair is in hand */
  act: Readonly<Record<RoundCommand, () => void>>;
  KitPage: Component;
  /** above the page while a pair is in hand */
  RoundStrip: Component;
  /** how the round’s own numbers come about, beside the meter’s */
  roundSums(): Sum[];
  /** the round in the big display; to be called where the page can be reached */
  useRoundCall(): () => RoundCallView | null;
  StoreTrouble: Component;
}
