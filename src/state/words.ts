/** The words of the engine and of the advice that the screen uses. */
export type { Advice, AdviceAction } from '../advice/advice';
export { drumAnswer, drumName, usedText, whichDrum } from '../advice/drums';
export type { PairKind, PairKindId } from '../advice/kinds';
export { PAIR_KIND_IDS, PAIR_KINDS, pairKind } from '../advice/kinds';
export { fateHere, fateText, honestPicture, lowEndOnly, whySentences } from '../advice/why';
export { pathCm, speedOfSound } from '../dsp/acoustics';
export type { ChannelPicture, HitPicture, Pictures } from '../dsp/pictures';
export type {
  BandReading,
  ChannelLevel,
  DrumReading,
  Fuller,
  HitReading,
  Polarity,
  Reading,
  ReadingState,
} from '../dsp/reading';
