/** Which pair the round goes to, and what the kit says together, worked out only when asked. */
import type { Accessor } from 'solid-js';
import type { DemoScene } from '../../audio/link';
import type { KitSheet, Pair } from '../../sheet/document/model';
import { type KitSystem, kitSystem } from '../../sheet/kit/kitSystem';
import { nextToCheck, proposed } from '../../sheet/kit/roundRules';
import { sceneOf } from './demoPair';
import type { RoundMode } from './roundTypes';

export interface Standing {
  sheet: KitSheet;
  system: KitSystem;
  mode: RoundMode;
  /** the pair in hand */
  present: Pair | null;
  /** ids of pairs that were put off */
  later: ReadonlySet<string>;
  /** the demo kit's scenes where it is what is heard; null: microphones or recordings */
  scenes: readonly DemoScene[] | null;
}

/** The pair after the one in hand; null: none. */
export function following({ sheet, system, mode, present, later, scenes }: Standing): string | null {
  const place = (id: string | undefined): number => sheet.pairs.findIndex((one) => one.id === id);
  if (mode === 'check') {
    const next = nextToCheck(sheet, present?.id ?? null);
    // round once, not for ever
    return next !== null && place(next) > place(present?.id) ? next : null;
  }
  // the demo kit can't let every pair be heard
  const unheard = scenes ? sheet.pairs.filter((one) => sceneOf(one, sheet.pairs, scenes) === null) : [];
  const not = new Set([...later, ...unheard.map(({ id }) => id), ...(present ? [present.id] : [])]);
  const next = proposed(sheet, system, present?.drum ?? null, not)?.pair;
  return next && next !== present?.id && !unheard.some(({ id }) => id === next) ? next : null;
}

/** Worked out once for each state of the sheet, and only when asked. */
export function systemOnce(sheet: Accessor<KitSheet | null>): Accessor<KitSystem | null> {
  let of: KitSheet | null = null;
  let found: KitSystem | null = null;
  return () => {
    const present = sheet();
    if (present !== of) {
      found = present && kitSystem(present);
      of = present;
    }
    return found;
  };
}
