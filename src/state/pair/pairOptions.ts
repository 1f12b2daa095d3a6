/** What the pair in hand is read from. */
import type { Accessor } from 'solid-js';
import type { Pair } from '../../sheet/document/model';
import type { Meter } from '../meter/meterTypes';
import type { RoundMode } from '../round/roundTypes';
import type { Settings } from '../settings/settings';
import type { KitShelf } from '../shelf/kitShelf';

export interface PairReadingOptions {
  meter: Meter;
  shelf: KitShelf;
  settings: Settings;
  pair: Accessor<Pair | null>;
  mode: Accessor<RoundMode>;
  patching: Accessor<boolean>;
  initials: Accessor<string>;
  clock(): Date;
}
