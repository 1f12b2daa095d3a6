/**
 * The meter as the screen sees it: what feeds it, its newest reading, what to do, and everything a person can press.
 * Readings come faster than frames: the handler keeps history and remembers the newest, one frame callback publishes it.
 */
import { type Accessor, batch, createSignal } from 'solid-js';
import type { Advice, AdviceContext } from '../advice/advice';
import { advise } from '../advice/advise';
import { type PairKindId, pairKind } from '../advice/kinds';
import { createSteadyAdvice } from '../advice/steady';
import { InputIdentifier } from '../audio/identify';
import {
  type AudioDoor,
  type DemoScene,
  type InputDevice,
  type MeterEvents,
  type MeterLink,
  type MeterSettings,
  type Problem,
  problemOf,
} from '../audio/link';
import { pathCm } from '../dsp/acoustics';
import type { Reading } from '../dsp/reading';
import { FlashLimiter } from './flash';
import { type MarkKind, TraceHistory } from './history';
import { type PlainValue, PreviousValue } from './previous';
import { isPairKind, type Settings } from './settings';

export type { DemoScene, InputDevice, Problem, Reading };

export type Source =
  | { type: 'interface'; deviceId: string | null }
  | { type: 'recording'; files: File[]; mode: 'analyse' | 'play' }
  | { type: 'demo'; scene: DemoScene };

/** Which of the screens is up. */
export type Page = 'start' | 'connect' | 'recording' | 'identify' | 'meter';

/** What the source is doing. */
export type Run = 'idle' | 'opening' | 'running' | 'ended' | 'stopped';

/** Problems after which nothing more comes from the source. */
const FATAL: readonly Problem['code'][] = ['input-lost', 'worklet-fault', 'no-worklet'];

/** A change asked of the audio thread is heard within this time, ms. */
const TURN_MS = 400;

export interface MeterOptions {
  door: AudioDoor;
  settings: Settings;
  /** runs `paint` before the next frame; once per call */
  schedule(paint: () => void): void;
  /** ms, any origin */
  nowMs(): number;
}

export interface Meter {
  page: Accessor<Page>;
  run: Accessor<Run>;
  source: Accessor<Source | null>;
  sourceLabel: Accessor<string>;
  reading: Accessor<Reading | null>;
  advice: Accessor<Advice | null>;
  /** what the advice takes into account besides the reading */
  context: Accessor<AdviceContext>;
  previous: Accessor<PlainValue | null>;
  /** counts hits worth a flash; at most three a second */
  flashes: Accessor<number>;
  history: TraceHistory;
  held: Accessor<boolean>;
  invertB: Accessor<boolean>;
  swapped: Accessor<boolean>;
  problem: Accessor<Problem | null>;
  /** 0…1 of a recording; null where there is none */
  progress: Accessor<number | null>;
  /** 0…1; 0: silent */
  monitorGain: Accessor<number>;
  scenes: Accessor<DemoScene[]>;
  inputs: Accessor<InputDevice[]>;
  files: Accessor<File[]>;
  loadScenes(): Promise<void>;
  loadInputs(): Promise<void>;
  go(page: Page): void;
  open(source: Source): Promise<void>;
  /** open the same source again, after a problem or at the end */
  reopen(): Promise<void>;
  /** close the source and go back to the first screen */
  leave(): Promise<void>;
  offerFiles(files: File[]): void;
  swapFiles(): void;
  /** which input someone spoke close to; null until one stands out */
  heard: Accessor<1 | 2 | null>;
  listenAgain(): void;
  finishIdentify(swapped: boolean): void;
  /** stop reading a recording; what was read so far stays */
  cancel(): Promise<void>;
  hold(on: boolean): void;
  setInvertB(on: boolean): void;
  swap(): void;
  startOver(): void;
  setKind(kind: PairKindId): void;
  setTemperatureC(value: number): void;
  setMonitorGain(gain: number): void;
  dismissProblem(): void;
}

export function createMeter({ door, settings, schedule, nowMs }: MeterOptions): Meter {
  const [page, setPage] = createSignal<Page>('start');
  const [run, setRun] = createSignal<Run>('idle');
  const [source, setSource] = createSignal<Source | null>(null);
  const [sourceLabel, setSourceLabel] = createSignal('');
  const [reading, setReading] = createSignal<Reading | null>(null, { equals: false });
  const [advice, setAdvice] = createSignal<Advice | null>(null);
  const [previous, setPrevious] = createSignal<PlainValue | null>(null);
  const [flashes, setFlashes] = createSignal(0);
  const [held, setHeld] = createSignal(false);
  const [invertB, setInvert] = createSignal(false);
  const [swapped, setSwapped] = createSignal(false);
  const [problem, setProblem] = createSignal<Problem | null>(null);
  const [progress, setProgress] = createSignal<number | null>(null);
  const [monitorGain, setGain] = createSignal(0);
  const [scenes, setScenes] = createSignal<DemoScene[]>([]);
  const [inputs, setInputs] = createSignal<InputDevice[]>([]);
  const [files, setFiles] = createSignal<File[]>([]);

  const [heard, setHeard] = createSignal<1 | 2 | null>(null);

  const history = new TraceHistory();
  const identifier = new InputIdentifier();
  const steady = createSteadyAdvice();
  const before = new PreviousValue();
  const flash = new FlashLimiter();
  let link: MeterLink | null = null;
  let newest: Reading | null = null;
  let scheduled = false;
  let hitsSeen = 0;
  let turningUntilMs = Number.NEGATIVE_INFINITY;
  /** events of a source that was left are not ours any more */
  let ticket = 0;

  const context = (): AdviceContext => ({
    kind: settings.kind(),
    temperatureC: settings.temperatureC(),
    invertB: invertB(),
  });

  const linkSettings = (): MeterSettings => ({
    maxLagMs: pairKind(settings.kind()).maxLagMs,
    swapped: swapped(),
    invertB: invertB(),
  });

  function think(next: Reading): void {
    // readings sent before a person's change was heard still arrive: they must neither settle nor hold anything back
    const turning = nowMs() < turningUntilMs;
    if (turning) steady.reset();
    const shown = steady.feed(advise(next, context()), next);
    if (!turning && next.state === 'measured' && next.delaySamples !== null && next.polarity !== null) {
      const seconds = next.delaySamples / next.sampleRate;
      const path = pathCm(seconds, settings.temperatureC());
      before.update({ polarity: next.polarity, delayMs: seconds * 1000, pathCm: path }, next.hits);
    }
    setAdvice(shown);
    setPrevious(before.previous);
  }

  function paint(): void {
    scheduled = false;
    const next = newest;
    if (next === null) return;
    batch(() => {
      if (next.hits > hitsSeen && flash.allow(nowMs())) setFlashes((n) => n + 1);
      hitsSeen = next.hits;
      think(next);
      setReading(next);
    });
  }

  function ask(): void {
    if (scheduled) return;
    scheduled = true;
    schedule(paint);
  }

  function forget(): void {
    newest = null;
    hitsSeen = 0;
    history.clear();
    steady.reset();
    before.clear();
    setReading(null);
    setAdvice(null);
    setPrevious(null);
  }

  /** A person changed the pair: note it, and let the next reading speak at once. */
  function turned(mark: MarkKind): void {
    history.mark(mark);
    steady.reset();
    before.turn();
    turningUntilMs = nowMs() + TURN_MS;
  }

  /** Forget all hits; what stopped or ended begins again. */
  function rerun(): void {
    if (!link) return;
    batch(() => {
      const to = source();
      if (to?.type === 'recording' && run() === 'ended') setProgress(0);
      if (run() === 'ended' || problem()?.code === 'worklet-fault') setRun('running');
      if (problem()?.code === 'worklet-fault') setProblem(null);
    });
    link.restart(linkSettings());
  }

  function identify(next: Reading): void {
    const moved = identifier.push(next.streamSeconds, next.a.rmsDbfs, next.b.rmsDbfs);
    if (moved !== null && heard() === null) setHeard(moved === 'a' ? 1 : 2);
  }

  function eventsFor(mine: number): MeterEvents {
    const ours = (): boolean => mine === ticket;
    return {
      onReading(next) {
        if (!ours()) return;
        newest = next;
        if (page() === 'identify') identify(next);
        history.push(next);
        ask();
      },
      onProblem(next) {
        if (!ours()) return;
        batch(() => {
          setProblem(next);
          if (FATAL.includes(next.code)) setRun('stopped');
        });
      },
      onProblemOver(code) {
        if (!ours() || problem()?.code !== code) return;
        batch(() => {
          setProblem(null);
          if (run() === 'stopped') setRun('running');
        });
      },
      onEnded() {
        if (ours()) setRun('ended');
      },
      onProgress(share) {
        if (ours()) setProgress(share);
      },
    };
  }

  async function close(): Promise<void> {
    ticket++;
    const old = link;
    link = null;
    // a link that fails to close is gone all the same
    await old?.close().catch(() => undefined);
  }

  function enter(to: Source, events: MeterEvents): Promise<MeterLink> {
    switch (to.type) {
      case 'interface':
        return door.openInterface(to.deviceId, linkSettings(), events);
      case 'recording':
        return door.openRecording(to.files, to.mode, linkSettings(), events);
      case 'demo':
        return door.openScene(to.scene, linkSettings(), events);
    }
  }

  function dress(to: Source): void {
    if (to.type !== 'demo') {
      settings.recall();
      return;
    }
    if (isPairKind(to.scene.kind)) settings.setKind(to.scene.kind, false);
    settings.setLabel(0, to.scene.a, false);
    settings.setLabel(1, to.scene.b, false);
  }

  async function open(to: Source): Promise<void> {
    const again = to === source();
    await close();
    const mine = ticket;
    batch(() => {
      if (!again) {
        setSwapped(false);
        setInvert(false);
        dress(to);
      }
      setHeld(false);
      forget();
      setProblem(null);
      setProgress(to.type === 'recording' ? 0 : null);
      setSource(to);
      setSourceLabel(to.type === 'demo' ? to.scene.title : '');
      setRun('opening');
      setPage(to.type === 'interface' ? (again ? page() : 'connect') : 'meter');
    });
    try {
      const opened = await enter(to, eventsFor(mine));
      if (mine !== ticket) {
        await opened.close();
        return;
      }
      link = opened;
      batch(() => {
        setSourceLabel(to.type === 'demo' ? to.scene.title : opened.label);
        if (run() === 'opening') setRun('running');
        if (to.type === 'interface' && page() === 'connect') {
          meter.listenAgain();
          setPage('identify');
        }
      });
      opened.setMonitorGain(monitorGain());
      if (to.type === 'interface') void meter.loadInputs();
    } catch (error) {
      if (mine !== ticket) return;
      batch(() => {
        setProblem(problemOf(error));
        setRun('stopped');
        setProgress(null);
      });
    }
  }

  const meter: Meter = {
    page,
    run,
    source,
    sourceLabel,
    reading,
    advice,
    context,
    heard,
    previous,
    flashes,
    history,
    held,
    invertB,
    swapped,
    problem,
    progress,
    monitorGain,
    scenes,
    inputs,
    files,
    open,
    async loadScenes() {
      try {
        setScenes(await door.listScenes());
      } catch (error) {
        setProblem(problemOf(error));
      }
    },
    async loadInputs() {
      try {
        setInputs(await door.listInputs());
      } catch (error) {
        setProblem(problemOf(error));
      }
    },
    go: (to) => {
      batch(() => {
        setPage(to);
        setProblem(null);
      });
    },
    async reopen() {
      const to = source();
      if (to) await open(to);
    },
    async leave() {
      await close();
      batch(() => {
        settings.recall();
        setRun('idle');
        setSource(null);
        setSourceLabel('');
        setProgress(null);
        setProblem(null);
        setHeld(false);
        setInvert(false);
        setSwapped(false);
        forget();
        setPage('start');
      });
    },
    offerFiles(list) {
      if (list.length === 0) return;
      batch(() => {
        if (list.length > 2) {
          setProblem({
            code: 'unsupported-file',
            text: `${list.length} files came at once: choose one stereo file, or two mono files, A first.`,
          });
        } else setProblem(null);
        setFiles(list.slice(0, 2));
        setPage('recording');
      });
    },
    swapFiles: () => {
      setFiles((list) => [...list].reverse());
    },
    listenAgain() {
      identifier.reset();
      setHeard(null);
    },
    finishIdentify(swap) {
      batch(() => {
        setSwapped(swap);
        forget();
        setPage('meter');
      });
      link?.restart(linkSettings());
    },
    async cancel() {
      await close();
      batch(() => {
        setProgress(null);
        if (reading()) setRun('ended');
        else {
          setRun('idle');
          setPage('recording');
        }
      });
    },
    hold(on) {
      if (!link) return;
      setHeld(on);
      history.mark('hold');
      link.hold(on);
    },
    setInvertB(on) {
      setInvert(on);
      turned('invert');
      link?.invertB(on);
    },
    swap() {
      setSwapped((s) => !s);
      turned('swap');
      rerun();
    },
    startOver() {
      if (held()) meter.hold(false);
      turned('restart');
      rerun();
    },
    setKind(kind) {
      const reach = pairKind(settings.kind()).maxLagMs;
      settings.setKind(kind, source()?.type !== 'demo');
      steady.reset();
      if (pairKind(kind).maxLagMs !== reach) meter.startOver();
      else if (newest) ask();
    },
    setTemperatureC(value) {
      settings.setTemperatureC(value);
      steady.reset();
      if (newest) ask();
    },
    setMonitorGain(gain) {
      setGain(gain);
      link?.setMonitorGain(gain);
    },
    dismissProblem: () => {
      setProblem(null);
    },
  };
  return meter;
}
