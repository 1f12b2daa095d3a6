import type { Accessor } from 'solid-js';
import type { Meter } from '../../state/meter/meterTypes';
import type { Shown } from '../shared/appScope';

/** What is still plugged in isn't the pair that comes next: of its reading nothing is shown. */
export function createShown(
  { reading, standsOn, advice }: Pick<Meter, 'reading' | 'standsOn' | 'advice'>,
  patching: Accessor<boolean>,
): Shown {
  const unlessPatching =
    <T>(of: Accessor<T | null>): Accessor<T | null> =>
    () =>
      patching() ? null : of();
  return {
    patching,
    reading: unlessPatching(reading),
    answer: unlessPatching(standsOn),
    advice: unlessPatching(advice),
  };
}
