/** What a person can do about what feeds the meter. */
import { batch } from 'solid-js';
import type { Problem } from '../../audio/link';
import { tooManyText } from '../source/filesInHand';
import type { Source } from '../source/sourceDoor';
import type { Meter } from './meterTypes';
import type { MeterWorks } from './meterWorks';
import type { Restart } from './restart';

type SourceActions = Pick<
  Meter,
  'go' | 'canRecover' | 'recover' | 'leave' | 'offerFiles' | 'finishIdentify' | 'cancel' | 'dismissProblem'
>;

/** Trying again changes nothing: the same file is the same; a computer that drops audio would go on dropping it, without the hits so far. */
const NO_USE: readonly Problem['code'][] = [
  'not-audio',
  'unsupported-file',
  'files-differ',
  'empty-file',
  'dropped-audio',
];

const GONE: Problem = {
  code: 'no-device',
  text: 'The input used before isn’t there now; plug it back in or choose another, then press “Use this input”.',
};

export function sourceActions(
  works: MeterWorks,
  open: (to: Source) => Promise<void>,
  restart: Restart,
  loadInputs: () => Promise<void>,
): SourceActions {
  const { signals, settings, sources, readout, files } = works;
  const { troubles } = signals;

  /** Not listed any more: a person is asked for another, or for the same once it is plugged in. */
  async function isListed(deviceId: string): Promise<boolean> {
    await loadInputs();
    const listed = signals.inputs();
    return listed.length === 0 || listed.some((one) => one.deviceId === deviceId);
  }

  return {
    go(to) {
      batch(() => {
        signals.setPage(to);
        signals.setRefused(null);
        troubles.setPassing(null);
      });
    },
    canRecover() {
      const code = (troubles.problem() ?? troubles.aside())?.code;
      if (code === undefined || NO_USE.includes(code)) return false;
      return signals.refused() !== null || (troubles.standing() !== null && signals.source() !== null);
    },
    async recover() {
      const to = signals.refused() ?? signals.source();
      if (signals.refused() === null && troubles.standing()?.code === 'worklet-fault') {
        signals.setHeld(false);
        return restart.rerunOrOpen();
      }
      if (to?.type === 'interface' && to.deviceId !== null && !(await isListed(to.deviceId))) {
        troubles.setPassing(GONE);
        signals.setPage('connect');
      } else if (to) await open(to);
    },
    async leave() {
      await sources.close();
      forgetSource(works);
    },
    offerFiles(list) {
      if (list.length === 0) return;
      batch(() => {
        troubles.setPassing(list.length > 2 ? { code: 'unsupported-file', text: tooManyText(list) } : null);
        void files.take(list);
        signals.setPage('recording');
      });
    },
    finishIdentify(swap) {
      batch(() => {
        if (swap !== signals.swapped()) settings.turnLabels();
        signals.setSwapped(swap);
        readout.clear();
        signals.setPage('meter');
      });
      restart.rerun();
    },
    async cancel() {
      if (signals.opening()) {
        sources.giveUp();
        signals.setOpening(false);
        // it was closed to be opened again, and nothing is wrong with it
        if (signals.task() === 'stopped' && troubles.standing() === null) works.end();
        return;
      }
      await sources.close();
      works.end();
    },
    dismissProblem: troubles.close,
  };
}

/** Back to the first screen, with nothing of the source that was. */
function forgetSource({ settings, signals, notice, readout, offset }: MeterWorks): void {
  batch(() => {
    settings.recall();
    signals.setTask('idle');
    signals.setOldAt(null);
    signals.setOpening(false);
    signals.setSource(null);
    signals.setSourceLabel('');
    signals.setProgress(null);
    signals.troubles.setPassing(null);
    signals.troubles.clear();
    signals.setRefused(null);
    notice.clear();
    signals.setHeld(false);
    signals.askInvertB(false);
    signals.askSwitchedB(false);
    signals.setSwapped(false);
    offset.arrive(null);
    readout.clear();
    signals.setPage('start');
  });
}
