/** How a sheet's numbers come about: those that belong together with the one that is asked for. */

import { sheetDrumName } from '../../text/names';
import { capital } from '../../text/sentence';
import type { Sum } from '../../text/sum';
import { labelOf, pairTitle } from '../document/labels';
import { type KitSheet, lastTaken, type Pair } from '../document/model';
import type { KitSystem } from '../kit/kitSystem';
import { closureSums, referenceDelaySums } from './drumSums';
import { groupSums } from './groupSums';
import { micDelaySum } from './mixSums';
import { pairSums } from './pairSums';
import { sumIdOf, sumPlaceOf } from './sumPlace';

export interface SumsOf {
  /** whose numbers they are */
  of: string;
  sums: Sum[];
}

/**
 * @param system null: the whole kit isn't worked out
 * @param id as `sumIdOf` makes it
 * @returns null: it is no number of this sheet
 */
export function sheetSums(sheet: KitSheet, system: KitSystem | null, id: string, now: Date): SumsOf | null {
  const place = sumPlaceOf(id);
  if (place === null) return null;
  if (place.kind === 'pair') {
    const pair = sheet.pairs.find((one) => one.id === place.of);
    return pair ? { of: pairTitle(sheet, pair), sums: pairSums(sheet, system, pair, now) } : null;
  }
  if (system === null) return null;
  if (place.kind === 'mic') {
    const sum = micDelaySum(sheet, system.choice, place.of);
    return sum ? { of: labelOf(sheet, place.of), sums: [sum] } : null;
  }
  const drum = system.drums.find((one) => one.drum === place.of);
  if (!drum) return null;
  return {
    of: capital(sheetDrumName(drum.drum)),
    sums: [
      ...closureSums(sheet, drum),
      ...system.groups.filter((one) => one.drum === drum.drum).flatMap((one) => groupSums(sheet, one, system.choice)),
      ...referenceDelaySums(sheet, drum),
    ],
  };
}

/** All of a sheet's numbers, each with whose it is before its name. */
export function allSheetSums(sheet: KitSheet, system: KitSystem, now: Date): Sum[] {
  const places = [
    ...sheet.pairs.map(({ id }) => ({ kind: 'pair' as const, of: id })),
    ...system.choice.delays.map(({ microphone }) => ({ kind: 'mic' as const, of: microphone })),
    ...system.drums.map(({ drum }) => ({ kind: 'drum' as const, of: drum })),
  ];
  const all = places.flatMap((place): Sum[] => {
    const told = sheetSums(sheet, system, sumIdOf({ ...place, number: '' }), now);
    return told?.sums.map((one) => ({ ...one, name: `${told.of}: ${one.name}` })) ?? [];
  });
  // three readings that don't close are told with each of their pairs
  return [...new Map(all.map((one) => [one.id, one])).values()];
}

/** The first of a pair's numbers: its path, else whatever else is known. Null: it wasn't read, or no number came of it. */
export function firstSumOf(sheet: KitSheet, system: KitSystem | null, pair: Pair): string | null {
  const taken = lastTaken(pair);
  if (taken === null) return null;
  if (taken.sure && taken.delayMs !== null) return sumIdOf({ kind: 'pair', of: pair.id, number: 'path' });
  return pairSums(sheet, system, pair, new Date(0))[0]?.id ?? null;
}
