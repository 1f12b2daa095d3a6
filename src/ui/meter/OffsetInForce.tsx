/** The input offset beside the input's name while it is corrected. */
import { type JSX, Show } from 'solid-js';
import { fixedSamples } from '../../text/count';
import { fixedMs } from '../../text/time';
import { type AppContext, useApp } from '../shared/appScope';

/** "offset 12.30 samples (0.279 ms) corrected" */
export const offsetTakenOut = ({ offsetSamples, offsetMs }: AppContext['meter']): string =>
  `offset ${fixedSamples(offsetSamples(), 2)} (${fixedMs(offsetMs(), 3)}) corrected`;

export function OffsetInForce(props: { flag?: boolean }): JSX.Element {
  const { meter } = useApp();
  return (
    <Show when={meter.offsetSamples() !== 0}>
      <span class={props.flag ? 'flag flag-plain' : 'offset-in-force'} data-offset-samples={meter.offsetSamples()}>
        {offsetTakenOut(meter)}
        {meter.offsetForSession() ? ', until this page is closed: the browser won’t save it' : ''}
      </span>
    </Show>
  );
}
