/** What every part of the screen can reach. */
import { type Accessor, createContext, useContext } from 'solid-js';
import type { Meter } from '../state/meter';
import type { Settings } from '../state/settings';

export interface AppContext {
  meter: Meter;
  settings: Settings;
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
