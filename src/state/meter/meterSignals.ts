/** What the meter remembers of itself. Everything else follows from it, from the settings and from the readings. */
import { createSignal } from 'solid-js';
import type { DemoScene, InputDevice, KnownReading } from '../../audio/link';
import type { Source } from '../source/sourceDoor';
import type { Page, Run } from './meterTypes';
import { createTroubles } from './troubles';

export type MeterSignals = ReturnType<typeof createMeterSignals>;

export function createMeterSignals() {
  return { ...sourceSignals(), ...pairSignals(), ...listSignals() };
}

/** What feeds it, and which page is up. */
function sourceSignals() {
  const [page, setPage] = createSignal<Page>('start');
  const [task, setTask] = createSignal<Exclude<Run, 'waiting'>>('idle');
  const [opening, setOpening] = createSignal(false);
  const [refused, setRefused] = createSignal<Source | null>(null);
  const [source, setSource] = createSignal<Source | null>(null);
  const [sourceLabel, setSourceLabel] = createSignal('');
  const [unnamed, setUnnamed] = createSignal(false);
  const [oldAt, setOldAt] = createSignal<Date | null>(null);
  const troubles = createTroubles();
  const [progress, setProgress] = createSignal<number | null>(null);
  return {
    page,
    setPage,
    run: (): Run => (task() === 'running' ? (troubles.halts() ?? 'running') : task()),
    /** what the source was told to do, whatever keeps it from that. `stopped`: it was closed, to be opened once more */
    task,
    setTask,
    opening,
    setOpening,
    /** the source that could not be opened; null: none was refused since */
    refused,
    setRefused,
    source,
    setSource,
    sourceLabel,
    setSourceLabel,
    unnamed,
    setUnnamed,
    troubles,
    oldAt,
    setOldAt,
    progress,
    setProgress,
  };
}

/** How A and B are heard. */
function pairSignals() {
  const [held, setHeld] = createSignal(false);
  const [askedInvertB, askInvertB] = createSignal(false);
  const [askedSwitchedB, askSwitchedB] = createSignal(false);
  const [invertB, showInvertB] = createSignal(false);
  const [switchedB, showSwitchedB] = createSignal(false);
  const [knownSwitch, setKnownSwitch] = createSignal<boolean | null>(null);
  const [known, setKnown] = createSignal<KnownReading | null>(null);
  const [swapped, setSwapped] = createSignal(false);
  const [monitorGain, setMonitorGain] = createSignal(0);
  return {
    held,
    setHeld,
    /** as the reading on the screen has it, however much later than it was asked for */
    invertB,
    switchedB,
    askInvertB,
    askedSwitchedB,
    askSwitchedB,
    /** what was asked for is shown from here on */
    showTurned(): void {
      showInvertB(askedInvertB());
      showSwitchedB(askedSwitchedB());
    },
    knownSwitch,
    setKnownSwitch,
    known,
    setKnown,
    /** what the engine is told: the meter's own invert, and the demo kit's switch */
    turnedB: (): boolean => askedInvertB() !== askedSwitchedB(),
    swapped,
    setSwapped,
    monitorGain,
    setMonitorGain,
  };
}

/** What there is to choose from. */
function listSignals() {
  const [scenes, setScenes] = createSignal<DemoScene[]>([]);
  const [inputs, setInputs] = createSignal<InputDevice[]>([]);
  return { scenes, setScenes, inputs, setInputs };
}
