/** What lies over the meter, one at a time. */
import { type Accessor, createEffect, createSignal } from 'solid-js';
import type { Meter } from '../../state/meter/meterTypes';
import type { Over, Parts } from '../shared/appScope';

export function createOver(
  { page }: Pick<Meter, 'page'>,
  { kit }: Pick<Parts, 'kit'>,
): [over: Accessor<Over | null>, setOver: (over: Over | null) => void] {
  const [over, setOver] = createSignal<Over | null>(null);
  // it goes with the meter, and makes room for a note that is to be written
  createEffect(() => {
    if (page() !== 'meter' || kit.here()?.leaving()) setOver(null);
  });
  return [over, setOver];
}
