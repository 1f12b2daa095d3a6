/** The pages of live inputs: choosing the device, telling the inputs apart, measuring their offset. */
import { type JSX, Match, Switch } from 'solid-js';
import { useApp } from '../shared/appScope';
import { Connect } from './Connect';
import { Identify } from './Identify';
import { Offset } from './Offset';
import './live.css';

export function LivePages(): JSX.Element {
  const { meter } = useApp();
  return (
    <Switch>
      <Match when={meter.page() === 'connect'}>
        <Connect />
      </Match>
      <Match when={meter.page() === 'identify'}>
        <Identify />
      </Match>
      <Match when={meter.page() === 'offset'}>
        <Offset />
      </Match>
    </Switch>
  );
}
