/** What the open kit's sheet has and the meter takes over: the kind of the pair in hand, and the air's temperature. */
import { createEffect, createMemo, on, untrack } from 'solid-js';
import { changeSheet } from '../../sheet/document/edits';
import type { RoundWorks } from './roundWorks';

/** To be called where effects have an owner. The kind is the sheet's: chosen there, undone there, or by the meter's own list. */
export function followKind({ meter, settings, pair, patching }: RoundWorks): void {
  const kind = createMemo(() => pair()?.kind);
  createEffect(
    on(kind, (next) => {
      if (next && !untrack(patching) && next !== untrack(settings.kind)) meter.setKind(next, false);
    }),
  );
}

/** An open kit keeps the temperature: what a person sets goes on its sheet, and what is there is in force. */
export function followTemperature({ meter, shelf, settings }: RoundWorks): void {
  const keep = (celsius: number): void => {
    if (untrack(shelf.sheet)?.temperatureC !== celsius)
      shelf.change((it) => changeSheet(it, { temperatureC: celsius }));
  };
  settings.lendTemperature((celsius) => {
    if (untrack(shelf.sheet) === null) return false;
    keep(celsius);
    return true;
  });
  const kitId = createMemo(() => shelf.sheet()?.id);
  const kitTemperatureC = createMemo(() => shelf.sheet()?.temperatureC);
  createEffect(
    on([kitId, kitTemperatureC], ([, celsius]) => {
      if (celsius === undefined || celsius === untrack(settings.temperatureC)) return;
      meter.followTemperatureC(celsius);
      // a sheet's file may go farther than this page does
      keep(untrack(settings.temperatureC));
    }),
  );
}
