/** What is tried by hand, in figures. */
import type { Action } from '../plan/alternatives';

/** A move or a delay, not both (`Action`), and B's level against an equal one. */
export interface Tried extends Action {
  trimDb: number;
}

/** Nothing is tried: the present. */
export const NOTHING_TRIED: Tried = { invertB: false, delayMs: null, moveCm: null, trimDb: 0 };

/** how far B can be moved by hand, cm, and trimmed, dB */
export const MOST_MOVE_CM = 60;
export const MOST_TRIM_DB = 12;
