/** How a sheet's numbers come about: those that belong together with the one that is asked for. */

import { sheetDrumName } from '../../text/names';
import type { Sum } from '../../text/sum';
import { labelOf, pairTitle } from '../document/labels';
import { type KitSheet, lastTaken, type Pair } from '../document/model';
import type { KitSystem } from '../kit/kitSystem';
import { closureSums, referenceDelaySums } from './drumSums';
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
  return { of: sheetDrumName(drum.drum), sums: [...closureSums(sheet, drum), ...referenceDelaySums(sheet, drum)] };
}

/** The first of a pair's numbers: its path, else whatever else is known. Null: it wasn't read, or no number came of it. */
export function firstSumOf(sheet: KitSheet, system: KitSystem | null, pair: Pair): string | null {
  const taken = lastTaken(pair);
  if (taken === null) return null;
  if (taken.sure && taken.delayMs !== null) return sumIdOf({ kind: 'pair', of: pair.id, number: 'path' });
  return pairSums(sheet, system, pair, new Date(0))[0]?.id ?? null;
}
