/** What every part of the screen can reach. */
import { type Accessor, createContext, useContext } from 'solid-js';
import type { Meter } from '../../state/meter/meter';
import type { Settings } from '../../state/meter/settings';
import type { Round } from '../../state/round/round';
import type { KitShelf } from '../../state/shelf/kitShelf';

export interface AppContext {
  meter: Meter;
  settings: Settings;
  shelf: KitShelf;
  round: Round;
  /** the note of a pair that is left on purpose is being written */
  leaving: Accessor<boolean>;
  setLeaving(on: boolean): void;
  /** what was wrong with the sheet's file that was brought last; empty: nothing */
  kitProblem: Accessor<string>;
  setKitProblem(text: string): void;
  /** forget all hits and begin again; a pair in hand is begun anew */
  startOver(): void;
  swap(): void;
  /** to the kit sheet, and back to where it was left */
  kitAndBack(): void;
  /** the open kit's file, into the downloads */
  exportFile(): void;
  /** the filled example, opened, or `kitProblem` says what is wrong */
  loadExample(): Promise<void>;
  callOut: Accessor<boolean>;
  setCallOut(on: boolean): void;
  setWhy(on: boolean): void;
  help: Accessor<boolean>;
  setHelp(on: boolean): void;
  /** changes whenever paper and ink do */
  inkVersion: Accessor<number>;
}

export const AppScope = createContext<AppContext>();

export function useApp(): AppContext {
  const app = useContext(AppScope);
  if (!app) throw new Error('useApp must run inside AppScope');
  return app;
}
