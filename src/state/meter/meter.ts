import { problemOf } from '../../audio/link';
import { meterSound } from '../listen/meterSound';
import { sceneSource } from '../listen/soundSource';
import type { InputOffset } from '../offset/offsetSetting';
import type { Meter, MeterOptions } from './meterTypes';
import { createWorks, type MeterWorks } from './meterWorks';
import { createOpening } from './opening';
import { pairActions } from './pairActions';
import { createRestart } from './restart';
import { sourceActions } from './sourceActions';

export function createMeter(options: MeterOptions): Meter {
  const works = createWorks(
    options,
    (why) =>
      restart.begin('restart', why, () => {
        // what was heard with another offset compares with nothing
        works.readout.clear();
        restart.rerun();
      }),
    () => restart.rerun(),
  );
  const lists = listActions(works);
  const open = createOpening(works, lists.loadInputs);
  const restart = createRestart(works, open);
  const { readout, files, offset, why } = works.shown;
  const sound = meterSound(works);
  return {
    ...readout,
    ...files,
    ...offset,
    ...whileItArrives(works, offset),
    ...why,
    ...seen(works),
    sound,
    soundOf: (scene) => sceneSource(options.door, scene, sound),
    ...lists,
    ...pairActions(works, restart),
    ...sourceActions(works, open, restart, lists.loadInputs),
    open,
  };
}

/** Of no data no offset is taken. */
function whileItArrives({ refuses }: MeterWorks, offset: InputOffset) {
  const unless = (act: () => void) => (): void => {
    if (!refuses()) act();
  };
  const { beginOffset, keepOffset, removeOffset } = offset;
  return {
    beginOffset: unless(beginOffset),
    keepOffset: unless(keepOffset),
    removeOffset: unless(removeOffset),
  };
}

type Seen = Pick<
  Meter,
  | 'page'
  | 'run'
  | 'opening'
  | 'source'
  | 'sourceLabel'
  | 'unnamed'
  | 'problem'
  | 'aside'
  | 'oldAt'
  | 'progress'
  | 'held'
  | 'invertB'
  | 'switchedB'
  | 'swapped'
  | 'monitorGain'
  | 'scenes'
  | 'inputs'
  | 'context'
  | 'notice'
>;

/** The signals that the screen sees; it sets none of them itself. */
function seen({ signals, context, notice }: MeterWorks): Seen {
  const { page, run, opening, source, sourceLabel, unnamed, oldAt, progress, troubles } = signals;
  const { problem, aside } = troubles;
  const { held, invertB, switchedB, swapped, monitorGain, scenes, inputs } = signals;
  const fed = { page, run, opening, source, sourceLabel, unnamed, problem, aside, oldAt, progress };
  return { ...fed, held, invertB, switchedB, swapped, monitorGain, scenes, inputs, context, notice: notice.text };
}

function listActions({ door, signals }: MeterWorks): Pick<Meter, 'loadScenes' | 'loadInputs'> {
  const { setScenes, setInputs, troubles } = signals;
  const failed = (thrown: unknown): void => troubles.setPassing(problemOf(thrown));
  return {
    loadScenes: () => door.listScenes().then((list) => void setScenes(list), failed),
    loadInputs: () => door.listInputs().then((list) => void setInputs(list), failed),
  };
}
