/** Into a source: what ran before goes on until the new one is there, and stays where that can't be had. */
import { batch } from 'solid-js';
import { pairKind } from '../../advice/plan/pairKinds';
import { type MeterLink, type MeterSettings, problemOf } from '../../audio/link';
import { dress, kindOf } from '../source/dress';
import type { Source } from '../source/sourceDoor';
import type { Page } from './meterTypes';
import { linkSettings, type MeterWorks } from './meterWorks';

/** Pages that a source may begin behind. */
const OVER_THE_METER: readonly Page[] = ['kit', 'hand-over'];

/** @param loadInputs names of the inputs can be had once one is open */
export function createOpening(works: MeterWorks, loadInputs: () => Promise<void>): (to: Source) => Promise<void> {
  const { signals, sources } = works;
  return async (to) => {
    const again = to === signals.source();
    batch(() => {
      signals.setProblem(null);
      signals.setRefused(null);
      signals.setOpening(true);
      if (again) signals.setRun('stopped');
    });
    try {
      const link = await sources.open(to, again ? linkSettings(works) : firstSettings(works, to), again);
      if (link === null) return;
      arrive(works, to, link, again);
      link.setMonitorGain(signals.monitorGain());
      if (to.type === 'interface') void loadInputs();
    } catch (thrown) {
      batch(() => {
        signals.setOpening(false);
        signals.setRefused(to);
        signals.setProblem(problemOf(thrown));
      });
    }
  };
}

/** Nothing is turned over or swapped in a source that is new. */
function firstSettings({ settings }: MeterWorks, to: Source): MeterSettings {
  return { maxLagMs: pairKind(kindOf(settings, to)).maxLagMs, swapped: false, invertB: false };
}

function arrive(works: MeterWorks, to: Source, link: MeterLink, again: boolean): void {
  const { signals, settings, notice, readout, offset } = works;
  const live = to.type === 'interface';
  batch(() => {
    signals.setOpening(false);
    if (!again) {
      notice.clear();
      signals.setSwapped(false);
      signals.askInvertB(false);
      signals.askSwitchedB(false);
      dress(settings, to);
    }
    signals.setHeld(false);
    readout.clear();
    signals.setSource(to);
    signals.setSourceLabel(to.type === 'demo' ? to.scene.title : link.label);
    signals.setProgress(to.type === 'recording' ? 0 : null);
    signals.setRun('running');
    if (offset.arrive(live ? link : null)) link.restart(linkSettings(works));
    // whoever went to the kit meanwhile stays there
    if (live) signals.setPage(!again || signals.page() === 'identify' ? 'identify' : 'meter');
    else if (!OVER_THE_METER.includes(signals.page())) signals.setPage('meter');
  });
}
