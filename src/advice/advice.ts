import type { PairKindId } from './plan/kinds';

export type AdviceAction =
  | 'leave'
  | 'invert'
  | 'move'
  | 'invert-and-move'
  | 'delay-later'
  | 'hit-more'
  | 'cannot-tell'
  | 'fix-input';

export interface Advice {
  action: AdviceAction;
  /** positive: move B towards the drum; null without a move */
  moveCm: number | null;
  /** apply to B later in the mix if wanted: positive delays A (B hears the drum later), null when there is nothing to apply */
  delayLaterMs: number | null;
  /** the sentence with its numbers */
  text: string;
  /** short enough to be said over talkback, no full stop */
  callOut: string;
  /** how sure, or what is missing: "6 of 6 hits agree, within ±4 mm" */
  sureness: string;
  /** why, and whatever contradicts it; may be empty */
  notes: string[];
  /** what to mind before doing it (hands, heads, sticks); may be empty */
  cautions: string[];
}

export interface AdviceContext {
  kind: PairKindId;
  temperatureC: number;
  /** polarity of B as set by the meter's own invert: the reading already includes it */
  invertB: boolean;
  /** one of the two polarity switches is pressed, and not both, as somebody knows; left out: nobody does */
  switched?: boolean | undefined;
  /** the recording is over and no hit can follow: too few hits are said as a fact, not as a request; false when left out */
  ended?: boolean | undefined;
  /** what A and B are, in a word or two ("top"); beside the letters in the text where given */
  aLabel?: string | undefined;
  bLabel?: string | undefined;
}
