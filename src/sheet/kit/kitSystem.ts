/**
 * The kit as one system, from its sheet: what each drum's readings say together, which switches the kit would have changed,
 * what to measure next. Readings count as their pair was accepted last, as the polarity switches stand now.
 */
import type { KitSheet } from '../document/model';
import { type DrumGroup, groupOf, LEAST_GROUP } from './drumGroup';
import { type DrumSystem, drumSystem } from './drumSystem';
import { type SwitchWishes, switchWishes } from './switchWishes';

export interface KitSystem {
  drums: DrumSystem[];
  /** null: readings of all drums hold together more microphones than can be tried */
  switches: SwitchWishes | null;
  /** of drums with three microphones of their own or more */
  groups: DrumGroup[];
}

/** @throws TooManyTogether more microphones on one drum than can be compared */
export function kitSystem(sheet: KitSheet): KitSystem {
  const drums = [...new Set(sheet.pairs.map(({ drum }) => drum))];
  return {
    drums: drums.map((drum) => drumSystem(sheet, drum)),
    switches: switchWishes(sheet),
    groups: drums.map((drum) => groupOf(sheet, drum)).filter(({ microphones }) => microphones.length >= LEAST_GROUP),
  };
}
