/** Into a source: what ran before goes on until the new one is there, and stays where that can't be had. */
import { batch } from 'solid-js';
import { pairKind } from '../../advice/plan/pairKinds';
import { type MeterLink, type MeterSettings, type Problem, problemOf } from '../../audio/link';
import { dress, kindOf } from '../source/dress';
import type { Source } from '../source/sourceDoor';
import type { Page } from './meterTypes';
import { linkSettings, type MeterWorks } from './meterWorks';

/** Pages that a source may begin behind. */
const OVER_THE_METER: readonly Page[] = ['kit', 'hand-over'];

/** After these whoever speaks into which microphone is asked anew. */
const IDENTIFY_AGAIN: readonly Problem['code'][] = ['input-changed', 'mixed-channels'];

/** @param loadInputs names of the inputs can be had once one is open */
export function createOpening(works: MeterWorks, loadInputs: () => Promise<void>): (to: Source) => Promise<void> {
  const { signals, sources } = works;
  return async (to) => {
    const again = to === signals.source();
    batch(() => {
      // what is wrong with the source stays wrong until there is another
      signals.troubles.setPassing(null);
      signals.setRefused(null);
      signals.setOpening(true);
      if (again) signals.setTask('stopped');
    });
    try {
      const settings = again ? linkSettings(works) : firstSettings(works, to);
      const link = await sources.open(to, settings, again, (opened) => arrive(works, to, opened, again));
      if (link === null) return;
      link.setMonitorGain(signals.monitorGain());
      if (to.type === 'interface') void loadInputs();
    } catch (thrown) {
      batch(() => {
        signals.setOpening(false);
        signals.setRefused(to);
        refused(works, problemOf(thrown), again);
      });
      if (again && isGone(to, problemOf(thrown))) askWhich(works, loadInputs);
    }
  };
}

/** The source before goes on; one that was closed for this is in want of it still. */
function refused({ signals: { troubles } }: MeterWorks, problem: Problem, again: boolean): void {
  if (again) {
    troubles.clear();
    troubles.stand(problem);
  } else troubles.setPassing(problem);
}

/** The device of this id isn't there any more. */
const isGone = (to: Source, { code }: Problem): boolean =>
  to.type === 'interface' && to.deviceId !== null && code === 'no-device';

function askWhich({ signals }: MeterWorks, loadInputs: () => Promise<void>): void {
  if (!OVER_THE_METER.includes(signals.page())) signals.setPage('connect');
  void loadInputs();
}

/** Nothing is turned over or swapped in a source that is new. */
function firstSettings({ settings }: MeterWorks, to: Source): MeterSettings {
  return { maxLagMs: pairKind(kindOf(settings, to)).maxLagMs, swapped: false, invertB: false };
}

function arrive(works: MeterWorks, to: Source, link: MeterLink, again: boolean): void {
  const { signals, settings, notice, readout, offset } = works;
  const live = to.type === 'interface';
  // the system's own choice may be another device by now
  const { troubles } = signals;
  const code = troubles.standing()?.code ?? 'unknown';
  const isSame = !IDENTIFY_AGAIN.includes(code) && !(code === 'input-lost' && link.isUnnamed);
  const isKnown = again && isSame && link.label === signals.sourceLabel();
  works.beginLater(false);
  batch(() => {
    signals.troubles.clear();
    signals.setOldAt(null);
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
    signals.setUnnamed(link.isUnnamed ?? false);
    signals.setProgress(to.type === 'recording' ? 0 : null);
    signals.setTask('running');
    if (offset.arrive(live ? link : null)) link.restart(linkSettings(works));
    // whoever went to the kit meanwhile stays there
    if (live) signals.setPage(!isKnown || signals.page() === 'identify' ? 'identify' : 'meter');
    else if (!OVER_THE_METER.includes(signals.page())) signals.setPage('meter');
  });
}
