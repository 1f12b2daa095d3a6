/** Beginning again: all hits are forgotten, and whatever is said about it is said once. */
import { batch } from 'solid-js';
import type { Source } from '../source/sourceDoor';
import type { MarkKind } from '../views/traceHistory';
import { linkSettings, type MeterWorks } from './meterWorks';

export interface Restart {
  /** forget all hits, and show none of them; what stopped or ended begins again */
  rerun(): void;
  /** the same; a source that was cancelled or lost has no link left: it is opened anew */
  rerunOrOpen(): void;
  /** `again`, marked on the trace; `why` in a few words when it was not asked for in so many words. A held reading has nothing to stand on then */
  begin(mark: MarkKind, why: string, again: () => void): void;
}

export function setHold({ signals, readout, sources }: MeterWorks, on: boolean): void {
  if (!sources.link) return;
  signals.setHeld(on);
  readout.note('hold');
  sources.link.hold(on);
}

export function createRestart(works: MeterWorks, open: (to: Source) => Promise<void>): Restart {
  const { signals, readout, notice, sources } = works;

  function rerun(): void {
    const { link } = sources;
    if (!link) return;
    batch(() => {
      if (signals.run() === 'ended') {
        signals.setRun('running');
        signals.setProgress(0);
      }
      if (signals.problem()?.code === 'worklet-fault') {
        signals.setRun('running');
        signals.setProblem(null);
      }
    });
    // these hits are forgotten, and may have been of another pair
    readout.blank();
    link.restart(linkSettings(works));
  }

  return {
    rerun,
    rerunOrOpen() {
      const to = signals.source();
      if (sources.link && signals.problem()?.code !== 'input-lost') rerun();
      else if (to) void open(to);
    },
    begin(mark, why, again) {
      const held = signals.held();
      const parts = [held ? 'hold is off' : '', why].filter((part) => part !== '');
      if (held) setHold(works, false);
      readout.turn(mark);
      again();
      if (parts.length > 0) notice.say(`${parts.join(', ')}: starting over.`);
    },
  };
}
