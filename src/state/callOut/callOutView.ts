/** What the big display shows, as plain data: it is drawn on the meter's page, and posted to a window of its own. */
import type { ReadingState } from '../../reading/codes';
import type { Lights } from '../settings/settings';

/** What is set in the meter that a reader must know of. */
export interface CallOutFlag {
  code: string;
  text: string;
  /** framed, as what may mislead is */
  strong: boolean;
}

/** The round: which pair, what is to be done of it, and what changed last. */
export interface RoundCallView {
  title: string;
  line: string;
  said: string;
  /** the newest change that was noticed, with its time; empty: none */
  change: string;
  /** it sends somebody to a cable, a switch or a stand */
  hands: boolean;
}

export interface CallOutView {
  /** the large line */
  text: string;
  sureness: string;
  /** polarity and path as measured now, and before; empty: none */
  now: string;
  before: string;
  /** one line; empty: none */
  caution: string;
  flags: CallOutFlag[];
  /** what is wrong with the source; empty code: nothing */
  problem: { code: string; text: string };
  mark: { state: ReadingState | null; have: number; need: number; rough: boolean };
  /** it was read before the input stood still */
  old: boolean;
  /** null: no pair is in hand */
  round: RoundCallView | null;
  action: string;
  moveCm: number | null;
  previousPathCm: number | null;
  lights: Lights;
  /** the source, as the meter’s page names it */
  from: string;
}
