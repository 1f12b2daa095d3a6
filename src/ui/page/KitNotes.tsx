/** What the kit has to say on every page, and the round's strip above those that aren't the kit's. */
import { type JSX, Show } from 'solid-js';
import { PartProblem } from '../parts/PartProblem';
import { useApp } from '../shared/appScope';
import { isOfKit } from './createPageTurns';

export function KitNotes(): JSX.Element {
  const { meter, parts } = useApp();
  const kit = parts.kit.here;
  const elsewhere = (): boolean => !isOfKit(meter.page());
  return (
    <>
      <Show when={elsewhere() && parts.kit.missing()}>
        <PartProblem part={parts.kit} />
      </Show>
      <Show when={kit()} keyed>
        {(it) => <it.StoreTrouble />}
      </Show>
      <Show when={elsewhere() && kit()} keyed>
        {(it) => <it.RoundStrip />}
      </Show>
    </>
  );
}
