/**
 * The kit as one system, from its sheet: what each drum's readings say together, which switches and delays the whole
 * kit gets, what to measure next. Readings count as their pair was accepted last, as the polarity switches stand now.
 */
import type { KitSheet } from '../document/model';
import { type DrumGroup, groupOf, LEAST_GROUP } from './drumGroup';
import { type DrumSystem, drumSystem } from './drumSystem';
import { type KitChoice, kitChoice } from './kitChoice';

export interface KitSystem {
  drums: DrumSystem[];
  choice: KitChoice;
  /** of drums with three microphones of their own or more */
  groups: DrumGroup[];
}

/** Of sheets that are still in use: the kit's page, the hand-over and the spreadsheet ask for one and the same. */
const known = new WeakMap<KitSheet, KitSystem>();

/** Worked out once for each state of the sheet. */
export function kitSystem(sheet: KitSheet): KitSystem {
  const before = known.get(sheet);
  if (before) return before;
  const system = workedOut(sheet);
  known.set(sheet, system);
  return system;
}

function workedOut(sheet: KitSheet): KitSystem {
  const drums = [...new Set(sheet.pairs.map(({ drum }) => drum))];
  const choice = kitChoice(sheet);
  return {
    drums: drums.map((drum) => drumSystem(sheet, drum)),
    choice,
    groups: drums
      .map((drum) => groupOf(sheet, drum, choice.invert))
      .filter(({ microphones }) => microphones.length >= LEAST_GROUP),
  };
}
