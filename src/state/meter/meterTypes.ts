/** The meter as the screen sees it: what it shows, and everything a person can press. */
import type { Accessor } from 'solid-js';
import type { AdviceContext } from '../../advice/advice';
import type { Action } from '../../advice/plan/alternatives';
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { AudioDoor, DemoScene, InputDevice, KnownReading, Problem } from '../../audio/link';
import type { SoundSource } from '../listen/soundSource';
import type { InputOffset } from '../offset/offsetSetting';
import type { Settings } from '../settings/settings';
import type { FilesInHand } from '../source/filesInHand';
import type { Source } from '../source/sourceDoor';
import type { WhyView } from '../views/whyView';
import type { Readout } from './readout';
import type { Troubles } from './troubles';

/** Which of the screens is up. */
export type Page = 'start' | 'connect' | 'recording' | 'take' | 'identify' | 'offset' | 'meter' | 'kit' | 'hand-over';

/**
 * What the source is doing. `waiting`: nothing arrives from it, and it goes on by itself when something does. `stopped`: a
 * person has to do something first. In both what is shown is the old reading, and nothing can be done with it.
 */
export type Run = 'idle' | 'running' | 'waiting' | 'ended' | 'stopped';

export const isHalted = (run: Run): boolean => run === 'waiting' || run === 'stopped';
/** What keeps the next reading away, of a source that is halted; `none`: nothing arrives. */
export type Halt = 'dropped' | 'other-input' | 'mix' | 'fault' | 'none';

const HALTS: Partial<Record<Problem['code'], Halt>> = {
  'dropped-audio': 'dropped',
  'input-changed': 'other-input',
  'mixed-channels': 'mix',
  'worklet-fault': 'fault',
  'no-worklet': 'fault',
};

export function haltOf({ problem, aside }: Pick<Meter, 'problem' | 'aside'>): Halt {
  const code = (problem() ?? aside())?.code;
  return (code && HALTS[code]) ?? 'none';
}

export interface MeterOptions {
  door: AudioDoor;
  settings: Settings;
  /** runs `paint` before the next frame; once per call */
  schedule(paint: () => void): void;
  /** ms, any origin */
  nowMs(): number;
  /** the time of day; the page's own unless told */
  clock?(): Date;
}

export interface Meter extends Readout, FilesInHand, InputOffset, WhyView, Troubles {
  page: Accessor<Page>;
  run: Accessor<Run>;
  /** a source is being opened; the one before still runs */
  opening: Accessor<boolean>;
  source: Accessor<Source | null>;
  sourceLabel: Accessor<string>;
  /** the system's default input, and nothing tells which device that is */
  unnamed: Accessor<boolean>;
  /** what the meter listens to, for a person to listen to as well */
  sound: SoundSource;
  /** an example, to be listened to without being measured. To be called where effects have an owner */
  soundOf(scene: Accessor<DemoScene | null>): SoundSource;
  /** what the advice takes into account besides the reading */
  context: Accessor<AdviceContext>;
  held: Accessor<boolean>;
  invertB: Accessor<boolean>;
  /** B's polarity switch of the demo kit, which nobody can press: the readings come as if it were */
  switchedB: Accessor<boolean>;
  swapped: Accessor<boolean>;
  /** when the newest data came, while none do; null: they do, or none ever came */
  oldAt: Accessor<Date | null>;
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
  /** what was read of the pair before, as the inputs carry it now: from the next beginning on; null: nothing */
  expect(known: KnownReading | null): void;
  /** read this drum; null: the one the meter picks */
  chooseDrum(id: number | null): void;
  /** take this one of the plan's alternatives; null: the recommended one again */
  chooseAction(action: Action | null): void;
  /** call a drum that is heard; an empty text: by no name. Until the hits begin again, or it isn’t heard any more */
  nameDrum(id: number, text: string): void;
  swap(): void;
  /** forget all hits and begin again; what stopped, or waits for data, is tried again */
  startOver(): void;
  /** the hits so far count no more: it begins again, or does so as soon as anything arrives */
  forgetHits(): void;
  /** `remember` false: for now only */
  setKind(kind: PairKindId, remember?: boolean): void;
  setTemperatureC(value: number): void;
  /** the open kit's, which the meter takes over */
  followTemperatureC(value: number): void;
  setMonitorGain(gain: number): void;
  /** while it stands, `aside` tells it */
  dismissProblem(): void;
}
