/** The shelf: the kits that are kept, and the one that is open. */
import type { Accessor } from 'solid-js';
import type { KitSheet } from '../../sheet/document/model';
import type { Keeper } from '../settings/keeper';
import type { Lasting, Persistence } from './lasting';
import type { Loaded, Saved, StoredHead, StoreProblem } from './sheetStore';

export type Storing = 'stored' | 'storing' | 'not-stored';

/** What the shelf needs of the store (src/state/shelf/sheetStore.ts). */
export interface Store {
  list(): Promise<StoredHead[] | StoreProblem>;
  load(id: string): Promise<Loaded>;
  has(id: string): Promise<boolean | StoreProblem>;
  save(sheet: KitSheet, basedOn: number): Promise<Saved>;
  remove(id: string): Promise<null | StoreProblem>;
  /** called when what was saved may be gone: the database was closed or removed from outside */
  onLost?: () => void;
}

export interface KitShelf {
  /** the open kit; null: none */
  sheet: Accessor<KitSheet | null>;
  /** all that are kept, the newest first */
  kits: Accessor<StoredHead[]>;
  storing: Accessor<Storing>;
  /** what the browser says of how long it keeps all that */
  lasting: Accessor<Lasting>;
  /** one sentence: what is wrong and what to do next; empty: nothing */
  trouble: Accessor<string>;
  /** another tab changed the open kit since it was loaded: nothing is stored until one of the two is chosen */
  conflict: Accessor<boolean>;
  canUndo: Accessor<boolean>;
  canRedo: Accessor<boolean>;
  /** reads the list, and opens the kit that was open last */
  begin(): Promise<void>;
  /** another tab may have changed things: reads again what can be read without losing anything */
  lookAgain(): Promise<void>;
  /** is the open kit, which is said to be saved, still in the database? Nobody tells of a row that goes */
  lookWhetherSaved(): Promise<void>;
  open(id: string): Promise<void>;
  /** a new kit from a starting point; an unknown one gives an empty kit */
  create(startId: string, name: string): void;
  /** a sheet from a file or from the example; one whose id is kept already becomes a copy. Empty: it is open now; else what is wrong */
  take(text: string): Promise<string>;
  change(edit: (sheet: KitSheet) => KitSheet): void;
  /** the same without a step to undo: what the meter notes by itself */
  note(edit: (sheet: KitSheet) => KitSheet): void;
  undo(): void;
  redo(): void;
  remove(id: string): Promise<void>;
  /** refused while it isn't stored */
  close(): Promise<void>;
  /** close it though it isn't stored: what isn't is gone */
  drop(): Promise<void>;
  /** after a conflict: what the other tab stored */
  takeTheirs(): Promise<void>;
  /** after a conflict: this tab's, as a kit of its own */
  keepAsCopy(): Promise<void>;
  dismissTrouble(): void;
  /** the file as it would be stored now; null: no kit is open */
  file(): string | null;
  /** when everything that was begun is done: for tests, and before the page goes */
  settled(): Promise<void>;
}

export interface KitShelfOptions {
  store: Store;
  keeper: Keeper;
  /** null: the browser doesn't say how long it keeps things */
  persistence?: Persistence | null;
  newId(): string;
  now(): Date;
}
