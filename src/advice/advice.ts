import type { Alternative } from './plan/alternatives';
import type { PlanContext, PlanFigures } from './plan/planTypes';

export interface Advice extends PlanFigures {
  /**
   * whole alternatives as the inputs carry it (the meter's own invert taken out), the recommended first, and what the present
   * is among them; empty: nothing is advised
   */
  plan: readonly Alternative[];
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
