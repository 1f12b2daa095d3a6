/** What a sheet's microphones and pairs are called on the screen. */
import { microphoneName, pairName } from '../../text/names';
import { type KitSheet, microphoneOf, type Pair } from './model';

/** "Snare top" */
export const labelOf = (sheet: KitSheet, id: string): string => microphoneName(microphoneOf(sheet, id)?.label);

/** "Snare top & Snare bottom" */
export const pairTitle = (sheet: KitSheet, { a, b }: Pair): string =>
  pairName(microphoneOf(sheet, a)?.label, microphoneOf(sheet, b)?.label);
