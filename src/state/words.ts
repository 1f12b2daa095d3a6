/** The words of the engine and of the advice that the screen uses. */
export type { Advice, AdviceAction } from '../advice/advice';
export type { PairKind, PairKindId } from '../advice/kinds';
export { PAIR_KIND_IDS, PAIR_KINDS, pairKind } from '../advice/kinds';
export { pathCm, speedOfSound } from '../dsp/acoustics';
export type { BandReading, ChannelLevel, Fuller, Polarity, Reading, ReadingState } from '../dsp/reading';
