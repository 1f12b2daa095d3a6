/** What the meter and the open kit both have, kept one: the air's temperature, and the kind of the pair in hand. */
import { createEffect, createMemo, on, untrack } from 'solid-js';
import { changeSheet } from '../../sheet/document/edits';
import type { Meter } from '../meter/meterTypes';
import type { PairReadingOptions } from '../pair/pairReading';
import type { Settings } from '../settings/settings';
import type { KitShelf } from './kitShelf';

type Parts = { meter: Meter; shelf: KitShelf; settings: Settings } & Pick<PairReadingOptions, 'pair' | 'patching'>;

/** To be called where effects have an owner. */
export function keepTogether({ meter, shelf, settings, pair, patching }: Parts): void {
  // the kind is the sheet's: chosen there, undone there, or by the meter's own list
  const kind = createMemo(() => pair()?.kind);
  createEffect(
    on(kind, (next) => {
      if (next && !untrack(patching) && next !== untrack(settings.kind)) meter.setKind(next, false);
    }),
  );
  const kitId = createMemo(() => shelf.sheet()?.id);
  // one temperature for the meter and the kit, whichever was set last
  const kitTemperatureC = createMemo(() => shelf.sheet()?.temperatureC);
  createEffect(
    on([kitId, kitTemperatureC], ([, celsius]) => {
      if (celsius !== undefined && celsius !== untrack(settings.temperatureC)) meter.setTemperatureC(celsius);
    }),
  );
  createEffect(
    on(
      settings.temperatureC,
      (celsius) => {
        const sheet = untrack(shelf.sheet);
        if (sheet && sheet.temperatureC !== celsius) shelf.change((it) => changeSheet(it, { temperatureC: celsius }));
      },
      { defer: true },
    ),
  );
}
