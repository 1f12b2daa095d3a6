/** Now, the plan and what is tried, one after the other to the ear. */
import { createMemo, type JSX } from 'solid-js';
import type { Action } from '../../advice/plan/alternatives';
import { shiftSecondsOf } from '../../advice/tryOut/tryOut';
import type { Version } from '../../listen/version';
import { NOW } from '../../state/listen/versions';
import { ListenStrip } from '../listen/ListenStrip';
import { useApp } from '../shared/appScope';
import type { Try } from './createTry';

export function TryListen(props: { it: Try }): JSX.Element {
  const { meter, settings, trying } = useApp();
  const versions = createMemo<readonly Version[]>(
    (before) => {
      const reading = props.it.reading();
      // what is heard goes on meanwhile
      if (reading === null) return before;
      // B's delay falls by a move towards the drum, and where A is delayed
      const version = (id: string, name: string, action: Action, trimBDb: number): Version => ({
        id,
        name,
        invertB: action.invertB,
        delayBSamples: 0 - shiftSecondsOf(action, settings.temperatureC()) * reading.sampleRate,
        trimBDb,
      });
      const [planned] = props.it.plan();
      const { trimDb, ...tried } = trying.tried();
      const plan = planned ? [version('plan', 'After the plan', planned, 0)] : [];
      return [NOW, ...plan, version('tried', 'Tried', tried, trimDb)];
    },
    [NOW],
  );
  return <ListenStrip source={meter.sound} versions={versions()} />;
}
