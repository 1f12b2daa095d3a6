/** Now, the plan and what is tried, one after the other to the ear. */
import { createMemo, type JSX } from 'solid-js';
import type { Action } from '../../advice/plan/alternatives';
import { shiftSecondsOf } from '../../advice/tryOut/tryOut';
import type { Version } from '../../listen/version';
import { ListenStrip } from '../listen/ListenStrip';
import { useApp } from '../shared/appScope';
import type { Try } from './createTry';

export function TryListen(props: { it: Try }): JSX.Element {
  const { meter, settings, trying } = useApp();
  const version = (id: string, name: string, action: Action, trimBDb: number): Version => ({
    id,
    name,
    invertB: action.invertB,
    // B's delay falls by a move towards the drum, and where A is delayed
    delayBSamples: 0 - shiftSecondsOf(action, settings.temperatureC()) * (props.it.reading()?.sampleRate ?? 0),
    trimBDb,
  });
  const versions = createMemo((): readonly Version[] => {
    const [planned] = props.it.plan();
    const { trimDb, ...tried } = trying.tried();
    return [
      version('now', 'Now', { invertB: false, delayMs: null, moveCm: null }, 0),
      ...(planned ? [version('plan', 'After the plan', planned, 0)] : []),
      version('tried', 'Tried', tried, trimDb),
    ];
  });
  return <ListenStrip source={meter.sound} versions={versions()} />;
}
