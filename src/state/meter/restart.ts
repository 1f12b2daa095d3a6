/** Beginning again: all hits are forgotten, and whatever is said about it is said once. */
import { batch } from 'solid-js';
import { problemOf } from '../../audio/link';
import type { Source } from '../source/sourceDoor';
import type { MarkKind } from '../views/traceHistory';
import { isHalted } from './meterTypes';
import { linkSettings, type MeterWorks } from './meterWorks';

export interface Restart {
  /** forget all hits, and show none of them; what ended, or failed on the audio thread, begins again */
  rerun(): void;
  /** the same; a source that was cancelled or lost has no link left: it is opened anew */
  rerunOrOpen(): void;
  /** `rerun`, marked on the trace, or as soon as anything arrives; `why` in a few words when it was not asked for in so many words. A held reading has nothing to stand on then */
  begin(mark: MarkKind, why: string, rerun: () => void): void;
}

export function setHold({ signals, readout, sources }: MeterWorks, on: boolean): void {
  if (!sources.link) return;
  signals.setHeld(on);
  readout.note('hold');
  sources.link.hold(on);
}

export function createRestart(works: MeterWorks, open: (to: Source) => Promise<void>): Restart {
  const { signals, readout, notice, sources } = works;
  const { troubles } = signals;

  /** @returns false: there is no link, or none that a new node can be had for */
  function again(): boolean {
    const { link } = sources;
    if (!link) return false;
    // these hits are forgotten, and may have been of another pair
    readout.blank();
    try {
      link.restart(linkSettings(works));
    } catch (thrown) {
      troubles.stand(problemOf(thrown));
      return false;
    }
    batch(() => {
      if (signals.task() === 'ended') {
        signals.setTask('running');
        signals.setProgress(0);
      }
      troubles.over('worklet-fault');
      if (!isHalted(signals.run())) signals.setOldAt(null);
    });
    return true;
  }

  return {
    rerun: () => void again(),
    rerunOrOpen() {
      const to = signals.source();
      const wrong = troubles.standing()?.code;
      const helps = wrong === 'worklet-fault' || !isHalted(signals.run());
      if (!(helps && again()) && to) void open(to);
    },
    begin(mark, why, rerun) {
      if (isHalted(signals.run())) return works.beginLater(true);
      const held = signals.held();
      const parts = [held ? 'hold is off' : '', why].filter((part) => part !== '');
      if (held) setHold(works, false);
      readout.turn(mark);
      rerun();
      if (parts.length > 0) notice.say(`${parts.join(', ')}: starting over.`);
    },
  };
}
