/** The kit at work: the sheets that are kept, and the round over the open one. Made when a kit is first wanted. */
import { createRoot } from 'solid-js';
import type { Meter } from './meter/meterTypes';
import { createRound } from './round/round';
import type { Round } from './round/roundTypes';
import type { Keeper } from './settings/keeper';
import type { Settings } from './settings/settings';
import { createKitShelf, type KitShelf, type Store } from './shelf/kitShelf';
import type { Persistence } from './shelf/lasting';

export interface Kit {
  shelf: KitShelf;
  round: Round;
}

export interface KitOptions {
  meter: Meter;
  settings: Settings;
  keeper: Keeper;
  store: Store;
  persistence?: Persistence | null;
  newId(): string;
  now(): Date;
}

/** Opens the kit that was left open, as soon as the store has it. */
export function createKit({ meter, settings, keeper, store, persistence = null, newId, now }: KitOptions): Kit {
  const shelf = createKitShelf({ store, keeper, persistence, newId, now });
  const round = createRoot(() => createRound({ meter, shelf, settings, keeper, now }));
  void shelf.begin();
  return { shelf, round };
}
