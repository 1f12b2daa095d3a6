import { problemOf } from '../../audio/link';
import type { Meter, MeterOptions } from './meterTypes';
import { createWorks, type MeterWorks } from './meterWorks';
import { createOpening } from './opening';
import { pairActions } from './pairActions';
import { createRestart } from './restart';
import { sourceActions } from './sourceActions';

export function createMeter(options: MeterOptions): Meter {
  const works = createWorks(options, (why) =>
    restart.begin('restart', why, () => {
      // what was heard with another offset compares with nothing
      works.readout.clear();
      restart.rerun();
    }),
  );
  const lists = listActions(works);
  const open = createOpening(works, lists.loadInputs);
  const restart = createRestart(works, open);
  const pair = pairActions(works, restart);
  const { readout, files, offset, why } = works.shown;
  return {
    ...readout,
    ...files,
    ...offset,
    ...why,
    ...seen(works),
    ...lists,
    ...pair,
    ...sourceActions(works, open, pair.startOver),
    open,
  };
}

type Seen = Pick<
  Meter,
  | 'page'
  | 'run'
  | 'opening'
  | 'source'
  | 'sourceLabel'
  | 'problem'
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
  const { page, run, opening, source, sourceLabel, problem, progress } = signals;
  const { held, invertB, switchedB, swapped, monitorGain, scenes, inputs } = signals;
  const fed = { page, run, opening, source, sourceLabel, problem, progress };
  return { ...fed, held, invertB, switchedB, swapped, monitorGain, scenes, inputs, context, notice: notice.text };
}

function listActions({ door, signals }: MeterWorks): Pick<Meter, 'loadScenes' | 'loadInputs'> {
  const { setScenes, setInputs, setProblem } = signals;
  const failed = (thrown: unknown): void => void setProblem(problemOf(thrown));
  return {
    loadScenes: () => door.listScenes().then((list) => void setScenes(list), failed),
    loadInputs: () => door.listInputs().then((list) => void setInputs(list), failed),
  };
}
