/**
 * The meter as the screen sees it: what feeds it, its newest reading, what to do, and everything a person can press.
 * Readings come faster than frames: the handler keeps history and remembers the newest, one frame callback publishes it.
 */
import { batch, createSignal } from 'solid-js';
import type { AdviceContext } from '../../advice/advice';
import { pairKind } from '../../advice/plan/pairKinds';
import {
  type DemoScene,
  type InputDevice,
  type MeterEvents,
  type MeterSettings,
  type Problem,
  problemOf,
} from '../../audio/link';
import type { MarkKind } from '../views/traceHistory';
import { createWhyView } from '../views/whyView';
import { dress, kindOf } from './dress';
import { createFilesInHand, tooManyText } from './filesInHand';
import type { Meter, MeterOptions, Page, Run } from './meterTypes';
import { createNotice } from './notice';
import { createInputOffset } from './offsetSetting';
import { createReadout } from './readout';
import { type Source, SourceDoor } from './sourceDoor';

export type {
  Advice,
  DemoScene,
  InputDevice,
  Meter,
  MeterOptions,
  Page,
  Problem,
  Reading,
  Run,
  Source,
} from './meterTypes';

/** Problems after which what comes from the source, if anything, must not be shown as a reading. */
const STOPPING: readonly Problem['code'][] = ['input-lost', 'input-changed', 'worklet-fault', 'no-worklet'];

/** Pages that a source may begin behind. */
const OVER_THE_METER: readonly Page[] = ['kit', 'hand-over'];

/** Of a file: trying the same one again changes nothing. */
const UNUSABLE: readonly Problem['code'][] = ['not-audio', 'unsupported-file', 'files-differ', 'empty-file'];

export function createMeter({ door, settings, schedule, nowMs }: MeterOptions): Meter {
  const [page, setPage] = createSignal<Page>('start');
  const [run, setRun] = createSignal<Run>('idle');
  const [opening, setOpening] = createSignal(false);
  const [refused, setRefused] = createSignal<Source | null>(null);
  const [source, setSource] = createSignal<Source | null>(null);
  const [sourceLabel, setSourceLabel] = createSignal('');
  const [held, setHeld] = createSignal(false);
  const [invertB, setInvert] = createSignal(false);
  const [switchedB, setSwitched] = createSignal(false);
  const [knownSwitch, setKnown] = createSignal<boolean | null>(null);
  /** what the engine is told: the meter's own invert, and the demo kit's switch */
  const turnedB = (): boolean => invertB() !== switchedB();
  const [swapped, setSwapped] = createSignal(false);
  const [problem, setProblem] = createSignal<Problem | null>(null);
  const [progress, setProgress] = createSignal<number | null>(null);
  const [monitorGain, setGain] = createSignal(0);
  const [scenes, setScenes] = createSignal<DemoScene[]>([]);
  const [inputs, setInputs] = createSignal<InputDevice[]>([]);

  const context = (): AdviceContext => ({
    kind: settings.kind(),
    temperatureC: settings.temperatureC(),
    invertB: invertB(),
    ...(knownSwitch() === null ? {} : { switched: knownSwitch() === true }),
    ...(run() === 'ended' ? { ended: true } : {}),
  });
  const notice = createNotice(nowMs);
  // told while they are still looked at only: a source that is being opened finds the same fault itself
  const inHand = createFilesInHand((next) => page() === 'recording' && !opening() && setProblem(next));
  const readout = createReadout({ context, schedule, nowMs });
  const offset = createInputOffset({
    memory: settings.offsets,
    reading: readout.reading,
    temperatureC: settings.temperatureC,
    swapped,
    show: setPage,
    again: (why) =>
      beginAgain('restart', why, () => {
        // what was heard with another offset compares with nothing
        readout.clear();
        rerun();
      }),
  });

  const events: MeterEvents = {
    onReading(reading) {
      notice.age();
      if (run() !== 'stopped' && offset.concerns(reading)) readout.take(reading, page() === 'identify');
    },
    onProblem(next) {
      batch(() => {
        setProblem(next);
        if (STOPPING.includes(next.code)) setRun('stopped');
      });
    },
    onProblemOver(code) {
      if (problem()?.code !== code) return;
      batch(() => {
        setProblem(null);
        if (run() === 'stopped') setRun('running');
      });
    },
    onPictures: (pictures) => why.answer(pictures),
    onEnded: () => end(),
    onProgress: (share) => void setProgress(share),
  };
  const sources = new SourceDoor(door, events);
  const why = createWhyView(() => sources.link, nowMs);

  /** No more hits will come: the advice must not ask for any. */
  function end(): void {
    readout.settle(() => setRun('ended'));
  }

  const linkSettings = (): MeterSettings => ({
    maxLagMs: pairKind(settings.kind()).maxLagMs,
    swapped: swapped(),
    invertB: turnedB(),
    ...offset.forLink(),
  });

  const settingsFor = (to: Source, again: boolean): MeterSettings =>
    again ? linkSettings() : { maxLagMs: pairKind(kindOf(settings, to)).maxLagMs, swapped: false, invertB: false };

  async function open(to: Source): Promise<void> {
    const again = to === source();
    batch(() => {
      setProblem(null);
      setRefused(null);
      setOpening(true);
      if (again) setRun('stopped');
    });
    try {
      const link = await sources.open(to, settingsFor(to, again), again);
      if (link === null) return;
      batch(() => {
        setOpening(false);
        if (!again) {
          notice.clear();
          setSwapped(false);
          setInvert(false);
          setSwitched(false);
          dress(settings, to);
        }
        setHeld(false);
        readout.clear();
        setSource(to);
        setSourceLabel(to.type === 'demo' ? to.scene.title : link.label);
        setProgress(to.type === 'recording' ? 0 : null);
        setRun('running');
        if (offset.arrive(to.type === 'interface' ? link : null)) link.restart(linkSettings());
        // whoever went to the kit meanwhile stays there
        if (!OVER_THE_METER.includes(page()) || to.type === 'interface')
          setPage(to.type === 'interface' && (!again || page() === 'identify') ? 'identify' : 'meter');
      });
      link.setMonitorGain(monitorGain());
      if (to.type === 'interface') void meter.loadInputs();
    } catch (thrown) {
      batch(() => {
        setOpening(false);
        setRefused(to);
        setProblem(problemOf(thrown));
      });
    }
  }

  /** Forget all hits; what stopped or ended begins again. */
  function rerun(): void {
    const { link } = sources;
    if (!link) return;
    batch(() => {
      if (run() === 'ended') {
        setRun('running');
        setProgress(0);
      }
      if (problem()?.code === 'worklet-fault') {
        setRun('running');
        setProblem(null);
      }
    });
    link.restart(linkSettings());
  }

  /** Begin again; `why` in a few words when it was not asked for in so many words. A held reading has nothing to stand on then. */
  function beginAgain(mark: MarkKind, why: string, again: () => void): void {
    const parts = [held() ? 'hold released' : '', why].filter((part) => part !== '');
    if (held()) meter.hold(false);
    readout.turn(mark);
    again();
    if (parts.length > 0) notice.say(`${parts.join(', ')}: started over.`);
  }

  /** A source that was cancelled or lost has no link left: it is opened anew. */
  function rerunOrOpen(to = source()): void {
    if (sources.link && problem()?.code !== 'input-lost') rerun();
    else if (to) void open(to);
  }

  const meter: Meter = {
    ...readout,
    ...inHand,
    ...offset,
    pictures: why.pictures,
    look: why.look,
    page,
    run,
    opening,
    source,
    sourceLabel,
    context,
    held,
    invertB,
    switchedB,
    swapped,
    problem,
    notice: notice.text,
    progress,
    monitorGain,
    scenes,
    inputs,
    open,
    async loadScenes() {
      await door.listScenes().then(setScenes, (thrown: unknown) => setProblem(problemOf(thrown)));
    },
    async loadInputs() {
      await door.listInputs().then(setInputs, (thrown: unknown) => setProblem(problemOf(thrown)));
    },
    go(to) {
      batch(() => {
        setPage(to);
        setRefused(null);
        setProblem(null);
      });
    },
    canRecover: () => {
      const code = problem()?.code;
      if (code === undefined || UNUSABLE.includes(code)) return false;
      return refused() !== null || (run() === 'stopped' && source() !== null);
    },
    async recover() {
      const to = refused() ?? source();
      if (refused() === null && problem()?.code === 'worklet-fault') meter.startOver();
      else if (to) await open(to);
    },
    async leave() {
      await sources.close();
      batch(() => {
        settings.recall();
        setRun('idle');
        setOpening(false);
        setSource(null);
        setSourceLabel('');
        setProgress(null);
        setProblem(null);
        setRefused(null);
        notice.clear();
        setHeld(false);
        setInvert(false);
        setSwitched(false);
        setSwapped(false);
        offset.arrive(null);
        readout.clear();
        setPage('start');
      });
    },
    offerFiles(list) {
      if (list.length === 0) return;
      batch(() => {
        setProblem(list.length > 2 ? { code: 'unsupported-file', text: tooManyText(list) } : null);
        void inHand.take(list);
        setPage('recording');
      });
    },
    finishIdentify(swap) {
      batch(() => {
        setSwapped(swap);
        readout.clear();
        setPage('meter');
      });
      sources.link?.restart(linkSettings());
    },
    async cancel() {
      if (opening()) {
        sources.giveUp();
        setOpening(false);
        return;
      }
      await sources.close();
      end();
    },
    hold(on) {
      if (!sources.link) return;
      setHeld(on);
      readout.note('hold');
      sources.link.hold(on);
    },
    // a held reading takes the invert in: the audio thread writes it anew with B turned over
    setInvertB(on) {
      // at once: with one and not the other, the reading on the screen would be of what it isn't
      batch(() => {
        readout.turn('invert');
        setInvert(on);
      });
      sources.link?.invertB(turnedB());
    },
    setKnownSwitch(pressed) {
      if (pressed === knownSwitch()) return;
      setKnown(pressed);
      readout.rethink();
    },
    setSwitchedB(on) {
      if (on === switchedB()) return;
      batch(() => {
        readout.turn('invert');
        setSwitched(on);
      });
      sources.link?.invertB(turnedB());
    },
    chooseDrum(id) {
      readout.turn('drum');
      sources.link?.chooseDrum(id);
    },
    swap() {
      batch(() => {
        setSwapped((s) => !s);
        beginAgain('swap', '', rerun);
      });
    },
    startOver: () => beginAgain('restart', '', rerunOrOpen),
    setKind(kind, remember = true) {
      const before = pairKind(settings.kind()).maxLagMs;
      const reach = pairKind(kind).maxLagMs;
      settings.setKind(kind, remember && source()?.type !== 'demo');
      if (source() && reach !== before) {
        beginAgain('restart', reach > before ? 'wider reach' : 'shorter reach', rerunOrOpen);
      } else readout.rethink();
    },
    setTemperatureC(value) {
      settings.setTemperatureC(value);
      readout.rethink();
    },
    setMonitorGain(gain) {
      setGain(gain);
      sources.link?.setMonitorGain(gain);
    },
    dismissProblem: () => void setProblem(null),
  };
  return meter;
}
