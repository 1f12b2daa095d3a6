/** What the meter's actions work on; the screen sees none of it. */
import { type Accessor, batch, createEffect, createMemo, createRoot, on } from 'solid-js';
import type { AdviceContext } from '../../advice/advice';
import { pairKind } from '../../advice/plan/pairKinds';
import type { AudioDoor, MeterEvents, MeterSettings, Problem } from '../../audio/link';
import type { Reading } from '../../reading/reading';
import { createInputOffset, type InputOffset, type InputOffsetActions } from '../offset/offsetSetting';
import type { Settings } from '../settings/settings';
import { pairDrum } from '../source/askedPair';
import { createFilesInHand, type FilesInHand, type FilesInHandActions } from '../source/filesInHand';
import { SourceDoor } from '../source/sourceDoor';
import { createWhyView, type WhyView } from '../views/whyView';
import { createDrumNames, type DrumNames } from './drumNames';
import { createMeterSignals, type MeterSignals } from './meterSignals';
import type { MeterOptions } from './meterTypes';
import { createNotice, type Notice } from './notice';
import { createReadout, type Readout, type ReadoutActions } from './readout';

export interface MeterWorks {
  door: AudioDoor;
  settings: Settings;
  signals: MeterSignals;
  /** what the advice takes into account besides the reading */
  context: Accessor<AdviceContext>;
  drumNames: DrumNames;
  notice: Notice;
  readout: ReadoutActions;
  files: FilesInHandActions;
  offset: InputOffsetActions;
  sources: SourceDoor;
  /** no more hits will come: the advice must not ask for any */
  end(): void;
  /** what of it the screen sees, as it is */
  shown: { readout: Readout; files: FilesInHand; offset: InputOffset; why: WhyView };
}

/** Problems after which what comes from the source, if anything, must not be shown as a reading. */
const STOPPING: readonly Problem['code'][] = ['input-lost', 'input-changed', 'worklet-fault', 'no-worklet'];

/** @param again forgets every hit and tells the link; `why` in a few words for the person */
export function createWorks(
  { door, settings, schedule, nowMs }: MeterOptions,
  again: (why: string) => void,
): MeterWorks {
  const signals = createMeterSignals();
  const { page, opening, setProblem } = signals;
  const drumNames = createDrumNames(() => pairDrum(settings.drum(), labelsOf(settings, signals)));
  const context = (): AdviceContext => ({ ...adviceContext(settings, signals), drumNames: drumNames.names() });
  const notice = createNotice(nowMs);
  // told while they are still looked at only: a source that is being opened finds the same fault itself
  const files = createFilesInHand((next) => page() === 'recording' && !opening() && setProblem(next));
  const readout = createReadout({ context, schedule, nowMs, showTurned: signals.showTurned });
  const offset = createInputOffset({
    memory: settings.offsets,
    reading: readout.shown.reading,
    temperatureC: settings.temperatureC,
    swapped: signals.swapped,
    show: signals.setPage,
    again,
  });
  const end = (): void => readout.settle(() => signals.setRun('ended'));
  const events: MeterEvents = {
    ...problemEvents(signals),
    onReading(reading: Reading) {
      notice.age();
      if (signals.run() === 'stopped' || !offset.concerns(reading)) return;
      drumNames.hear(reading);
      readout.take(reading, page() === 'identify');
    },
    onPictures: (pictures) => why.answer(pictures),
    onEnded: end,
    onProgress: (share) => void signals.setProgress(share),
  };
  const sources = new SourceDoor(door, events);
  const why = createWhyView(() => sources.link, nowMs);
  // a recording that is over brings no reading in which another name could be said
  createRoot(() => {
    const said = createMemo(() => [...settings.labels(), ...drumNames.names()].join('\n'));
    createEffect(on(said, () => readout.rethink(), { defer: true }));
  });
  const looking = { pictures: why.pictures, look: why.look };
  const shown = { readout: readout.shown, files: files.shown, offset: offset.shown, why: looking };
  return { door, settings, signals, context, drumNames, notice, readout, files, offset, sources, end, shown };
}

/** Of A and of B: the names belong to the inputs. */
function labelsOf(settings: Settings, { swapped }: MeterSignals): readonly [string, string] {
  const [one, two] = settings.labels();
  return swapped() ? [two, one] : [one, two];
}

function adviceContext(settings: Settings, signals: MeterSignals): AdviceContext {
  const { knownSwitch, run, invertB } = signals;
  const pressed = knownSwitch();
  const [aLabel, bLabel] = labelsOf(settings, signals);
  return {
    kind: settings.kind(),
    temperatureC: settings.temperatureC(),
    invertB: invertB(),
    ...(aLabel === '' ? {} : { aLabel }),
    ...(bLabel === '' ? {} : { bLabel }),
    ...(pressed === null ? {} : { switched: pressed }),
    ...(run() === 'ended' ? { ended: true } : {}),
  };
}

function problemEvents({
  problem,
  setProblem,
  run,
  setRun,
}: MeterSignals): Pick<MeterEvents, 'onProblem' | 'onProblemOver'> {
  return {
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
  };
}

/** What a link is told: as everything is set now. */
export function linkSettings({ settings, signals, offset }: MeterWorks): MeterSettings {
  return {
    maxLagMs: pairKind(settings.kind()).maxLagMs,
    swapped: signals.swapped(),
    invertB: signals.turnedB(),
    ...offset.forLink(),
  };
}
