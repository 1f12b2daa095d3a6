import type { AdviceAction, PlanContext } from './plan/planTypes';

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

export interface AdviceContext extends PlanContext {
  /** what A and B are, in a word or two ("top"); beside the letters in the text where given */
  aLabel?: string | undefined;
  bLabel?: string | undefined;
  /** names of the drums that are heard, by their ids; left out or not among them: nobody said */
  drumNames?: ReadonlyMap<number, string> | undefined;
}
