/** What the kit's pages use of the sheet: its words, its edits, its arithmetic. */
export { sheetCsv } from '../sheet/csv';
export {
  addMicrophone,
  addMissing,
  addPair,
  changeMicrophone,
  changePair,
  changeSheet,
  moveMicrophone,
  movePair,
  removeMicrophone,
  removePair,
  setFollows,
  setReference,
} from '../sheet/edits';
export { type HandOver, type HandOverHead, handOver, type MicrophoneRow } from '../sheet/handOver';
export type { InTheMix } from '../sheet/handOverMix';
export type { PairRow, SumPicture } from '../sheet/handOverPairs';
export type { KitSheet, Microphone, Pair, Taken } from '../sheet/model';
export { lastTaken, SUM_PICTURE_HZ } from '../sheet/model';
export { progressOf, proposed } from '../sheet/round';
export { STARTS } from '../sheet/starts';
export type { DrumSystem, KitSystem } from '../sheet/system';
