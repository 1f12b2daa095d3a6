/** What every part of the screen can reach. */
import { type Accessor, type Component, createContext, useContext } from 'solid-js';
import type { SumId } from '../../advice/sums/sumTypes';
import type { Meter } from '../../state/meter/meterTypes';
import type { Settings } from '../../state/settings/settings';
import type { PlotChoice } from '../../state/views/plotChoice';
import type { TryChoice } from '../../state/views/tryChoice';
import type { KitPart } from '../kit/kitPart';
import type { SecondScreenLink } from '../page/createSecondScreen';
import type { Part } from '../parts/part';
import type { TakePart } from '../take/takePart';
import type { Command } from './keys';

/** What is fetched when it is first wanted. */
export interface Parts {
  kit: Part<KitPart>;
  meter: Part<{ MeterPage: Component }>;
  handOver: Part<{ HandOverPage: Component }>;
  why: Part<{ Why: Component<{ onClose: () => void }> }>;
  tryOut: Part<{ TryOut: Component<{ onClose: () => void }> }>;
  callOut: Part<{ CallOut: Component }>;
  /** what windows of the big display are shown */
  callOutFeed: Part<{ CallOutFeed: Component }>;
  /** voice and tone */
  sounds: Part<{ SoundPanel: Component<{ onClose: () => void }>; Sounds: Component }>;
  help: Part<{ Help: Component }>;
  /** how the numbers come about */
  sums: Part<{ SumsPanel: Component }>;
  /** live inputs */
  live: Part<{ LivePages: Component }>;
  recording: Part<{ Recording: Component; Progress: Component }>;
  /** a whole take */
  take: Part<TakePart>;
}

export type Over = 'call-out' | 'why' | 'try';

/** What is on the screen of the meter's reading: nothing of the last pair's while the next one is being patched. */
export interface Shown extends Pick<Meter, 'reading' | 'advice'> {
  /** what the advice stands on: words, figures and marks are of one reading */
  answer: Meter['standsOn'];
  /** it is, and what the meter still reads was there before */
  patching: Accessor<boolean>;
}

export interface AppContext {
  meter: Meter;
  settings: Settings;
  parts: Parts;
  /** forget all hits and begin again; a pair in hand is begun anew */
  startOver(): void;
  swap(): void;
  /** the command whose key is being held; null: none is */
  holding: Accessor<Command | null>;
  setHolding(command: Command | null): void;
  shown: Shown;
  /** to the kit sheet, and back to where it was left */
  kitAndBack(): void;
  /** what lies over the meter, which can't be reached meanwhile */
  over: Accessor<Over | null>;
  setOver(over: Over | null): void;
  /** the big display in windows of its own */
  secondScreen: SecondScreenLink;
  /** the number whose sum is shown; null: none */
  sum: Accessor<SumId | null>;
  showSum(id: SumId | null): void;
  help: Accessor<boolean>;
  setHelp(on: boolean): void;
  /** what is wanted of the plots */
  plots: PlotChoice;
  /** what is tried with the pair */
  trying: TryChoice;
  /** changes whenever paper and ink do */
  inkVersion: Accessor<number>;
}

export const AppScope = createContext<AppContext>();

export function useApp(): AppContext {
  const app = useContext(AppScope);
  if (!app) throw new Error('useApp must run inside AppScope');
  return app;
}
