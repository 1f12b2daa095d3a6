/** The meter as the screen sees it: what it shows, and everything a person can press. */
import type { Accessor } from 'solid-js';
import type { AdviceContext } from '../../advice/advice';
import type { Action } from '../../advice/plan/alternatives';
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { AudioDoor, DemoScene, InputDevice, Problem } from '../../audio/link';
import type { InputOffset } from '../offset/offsetSetting';
import type { Settings } from '../settings/settings';
import type { FilesInHand } from '../source/filesInHand';
import type { Source } from '../source/sourceDoor';
import type { WhyView } from '../views/whyView';
import type { Readout } from './readout';

/** Which of the screens is up. */
export type Page = 'start' | 'connect' | 'recording' | 'identify' | 'offset' | 'meter' | 'kit' | 'hand-over';

/** What the source is doing. `stopped`: a problem ended it, what is shown is the last reading. */
export type Run = 'idle' | 'running' | 'ended' | 'stopped';

export interface MeterOptions {
  door: AudioDoor;
  settings: Settings;
  /** runs `paint` before the next frame; once per call */
  schedule(paint: () => void): void;
  /** ms, any origin */
  nowMs(): number;
}

export interface Meter extends Readout, FilesInHand, InputOffset, WhyView {
  page: Accessor<Page>;
  run: Accessor<Run>;
  /** a source is being opened; the one before still runs */
  opening: Accessor<boolean>;
  source: Accessor<Source | null>;
  sourceLabel: Accessor<string>;
  /** what the advice takes into account besides the reading */
  context: Accessor<AdviceContext>;
  held: Accessor<boolean>;
  invertB: Accessor<boolean>;
  /** B's polarity switch of the demo kit, which nobody can press: the readings come as if it were */
  switchedB: Accessor<boolean>;
  swapped: Accessor<boolean>;
  problem: Accessor<Problem | null>;
  /** what the meter did by itself because of something a person changed; empty after a while */
  notice: Accessor<string>;
  /** 0…1 of a recording; null where there is none */
  progress: Accessor<number | null>;
  /** 0…1; 0: silent */
  monitorGain: Accessor<number>;
  scenes: Accessor<DemoScene[]>;
  inputs: Accessor<InputDevice[]>;
  loadScenes(): Promise<void>;
  loadInputs(): Promise<void>;
  go(page: Page): void;
  open(source: Source): Promise<void>;
  /** whether a problem may go away by trying again, and that trying */
  canRecover: Accessor<boolean>;
  recover(): Promise<void>;
  /** close the source and go back to the first screen */
  leave(): Promise<void>;
  offerFiles(files: File[]): void;
  finishIdentify(swapped: boolean): void;
  /** stop opening or reading; what was read so far stays */
  cancel(): Promise<void>;
  hold(on: boolean): void;
  setInvertB(on: boolean): void;
  setSwitchedB(on: boolean): void;
  /** one of the pair's two polarity switches is pressed, and not both; null: nobody knows */
  setKnownSwitch(pressed: boolean | null): void;
  /** read this drum; null: the one the meter picks */
  chooseDrum(id: number | null): void;
  /** take this one of the plan's alternatives; null: the recommended one again */
  chooseAction(action: Action | null): void;
  /** call a drum that is heard; an empty text: by no name. Until the hits begin again, or it isn’t heard any more */
  nameDrum(id: number, text: string): void;
  swap(): void;
  startOver(): void;
  /** `remember` false: for now only */
  setKind(kind: PairKindId, remember?: boolean): void;
  setTemperatureC(value: number): void;
  /** the open kit's, which the meter takes over */
  followTemperatureC(value: number): void;
  setMonitorGain(gain: number): void;
  dismissProblem(): void;
}
