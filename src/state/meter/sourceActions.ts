/** What a person can do about what feeds the meter. */
import { batch } from 'solid-js';
import type { Problem } from '../../audio/link';
import { tooManyText } from '../source/filesInHand';
import type { Source } from '../source/sourceDoor';
import type { Meter } from './meterTypes';
import { linkSettings, type MeterWorks } from './meterWorks';

type SourceActions = Pick<
  Meter,
  'go' | 'canRecover' | 'recover' | 'leave' | 'offerFiles' | 'finishIdentify' | 'cancel' | 'dismissProblem'
>;

/** Of a file: trying the same one again changes nothing. */
const UNUSABLE: readonly Problem['code'][] = ['not-audio', 'unsupported-file', 'files-differ', 'empty-file'];

export function sourceActions(
  works: MeterWorks,
  open: (to: Source) => Promise<void>,
  startOver: () => void,
): SourceActions {
  const { signals, settings, sources, readout, files } = works;
  return {
    go(to) {
      batch(() => {
        signals.setPage(to);
        signals.setRefused(null);
        signals.setProblem(null);
      });
    },
    canRecover() {
      const code = signals.problem()?.code;
      if (code === undefined || UNUSABLE.includes(code)) return false;
      return signals.refused() !== null || (signals.run() === 'stopped' && signals.source() !== null);
    },
    async recover() {
      const to = signals.refused() ?? signals.source();
      if (signals.refused() === null && signals.problem()?.code === 'worklet-fault') startOver();
      else if (to) await open(to);
    },
    async leave() {
      await sources.close();
      forgetSource(works);
    },
    offerFiles(list) {
      if (list.length === 0) return;
      batch(() => {
        signals.setProblem(list.length > 2 ? { code: 'unsupported-file', text: tooManyText(list) } : null);
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
      sources.link?.restart(linkSettings(works));
    },
    async cancel() {
      if (signals.opening()) {
        sources.giveUp();
        signals.setOpening(false);
        return;
      }
      await sources.close();
      works.end();
    },
    dismissProblem: () => void signals.setProblem(null),
  };
}

/** Back to the first screen, with nothing of the source that was. */
function forgetSource({ settings, signals, notice, readout, offset }: MeterWorks): void {
  batch(() => {
    settings.recall();
    signals.setRun('idle');
    signals.setOpening(false);
    signals.setSource(null);
    signals.setSourceLabel('');
    signals.setProgress(null);
    signals.setProblem(null);
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
