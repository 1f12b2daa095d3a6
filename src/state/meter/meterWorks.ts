/** What the meter's actions work on; the screen sees none of it. */
import { type Accessor, batch, createEffect, createMemo, createRoot, on } from 'solid-js';
import type { AdviceContext } from '../../advice/advice';
import { pairKind } from '../../advice/plan/pairKinds';
import type { AudioDoor, MeterEvents, MeterSettings } from '../../audio/link';
import type { Reading } from '../../reading/reading';
import { createInputOffset, type InputOffset, type InputOffsetActions } from '../offset/offsetSetting';
import type { Settings } from '../settings/settings';
import { pairDrum } from '../source/askedPair';
import { createFilesInHand, type FilesInHand, type FilesInHandActions } from '../source/filesInHand';
import { SourceDoor } from '../source/sourceDoor';
import { createWhyView, type WhyView } from '../views/whyView';
import { createDrumNames, type DrumNames } from './drumNames';
import { createMeterSignals, type MeterSignals } from './meterSignals';
import { isHalted, type MeterOptions } from './meterTypes';
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
  /** nothing arrives: a press can do nothing but say so again. @returns whether it is so */
  refuses(): boolean;
  /** something was changed meanwhile: it begins again when anything arrives; false: it need not */
  beginLater(due: boolean): void;
  /** what of it the screen sees, as it is */
  shown: { readout: Readout; files: FilesInHand; offset: InputOffset; why: WhyView };
}

/**
 * @param again forgets every hit and tells the link; `why` in a few words for the person
 * @param rerun the same, without a word
 */
export function createWorks(
  { door, settings, schedule, nowMs, clock = () => new Date() }: MeterOptions,
  again: (why: string) => void,
  rerun: () => void,
): MeterWorks {
  const signals = createMeterSignals();
  const { page, opening, troubles } = signals;
  const drumNames = createDrumNames(() => pairDrum(settings.drum(), labelsOf(settings, signals)));
  const context = (): AdviceContext => ({ ...adviceContext(settings, signals), drumNames: drumNames.names() });
  const notice = createNotice(nowMs);
  // told while they are still looked at only: a source that is being opened finds the same fault itself
  const files = createFilesInHand((next) => page() === 'recording' && !opening() && troubles.setPassing(next));
  const readout = createReadout({ context, schedule, nowMs, clock, showTurned: signals.showTurned });
  const offset = createInputOffset({
    memory: settings.offsets,
    reading: readout.shown.reading,
    temperatureC: settings.temperatureC,
    swapped: signals.swapped,
    show: signals.setPage,
    again,
  });
  const end = (): void => {
    readout.settle(() => signals.setTask('ended'));
    // what it says on the way holds nothing back: the take's page tells what it says at its end
    if (signals.source()?.type === 'take') readout.rethink();
  };
  let isDue = false;
  const events: MeterEvents = {
    onProblem(problem) {
      // what came before it, came
      readout.paintNow();
      batch(() => {
        troubles.stand(problem);
        // what was read since the input changed was of another one, and nobody knows since when
        if (problem.code === 'input-changed') return void readout.clear();
        if (isHalted(signals.run()) && signals.oldAt() === null) signals.setOldAt(readout.newestAt());
      });
    },
    onProblemOver(code) {
      batch(() => {
        troubles.over(code);
        if (isHalted(signals.run())) return;
        signals.setOldAt(null);
        if (isDue) rerun();
        isDue = false;
      });
    },
    onReading(reading: Reading) {
      notice.age();
      if (isHalted(signals.run()) || !offset.concerns(reading)) return;
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
  function refuses(): boolean {
    if (!isHalted(signals.run())) return false;
    troubles.sayAgain();
    return true;
  }
  const beginLater = (due: boolean): void => {
    isDue = due;
  };
  const looking = { pictures: why.pictures, look: why.look };
  const shown = { readout: readout.shown, files: files.shown, offset: offset.shown, why: looking };
  const rooms = { door, settings, signals, context, drumNames, notice, readout, files, offset, sources, shown };
  return { ...rooms, end, refuses, beginLater };
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

/** What a link is told: as everything is set now. */
export function linkSettings({ settings, signals, offset }: MeterWorks): MeterSettings {
  return {
    maxLagMs: pairKind(settings.kind()).maxLagMs,
    swapped: signals.swapped(),
    invertB: signals.turnedB(),
    known: signals.known(),
    ...offset.forLink(),
  };
}
