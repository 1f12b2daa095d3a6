/** What the screen uses of the kit sheet. */
export { type HandOver, type HandOverHead, handOver, type MicrophoneRow } from '../sheet/handOver';
export type { InTheMix } from '../sheet/handOverMix';
export type { PairRow, SumPicture } from '../sheet/handOverPairs';
export { type KitSheet, SUM_PICTURE_HZ } from '../sheet/model';
