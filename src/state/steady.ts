/** Advice that stays put between hits: what is shown changes when a change has stood the next hit, not at every reading. */
import type { Advice, AdviceAction } from '../advice/advice';
import type { Reading } from '../dsp/reading';

/** a different answer must stand for this many further hits */
const HITS_TO_CHANGE = 1;
/** losing an answer shows after this long at the latest, s of the stream */
const LOSS_SECONDS = 1.2;
/** smaller changes of a number keep the words as they are */
const MOVE_STEP_CM = 0.5;
const DELAY_STEP_MS = 0.05;

const ANSWERS: readonly AdviceAction[] = ['leave', 'invert', 'move', 'invert-and-move', 'delay-later'];
export function isAnswer(action: AdviceAction): boolean {
  return ANSWERS.includes(action);
}

function near(a: number | null, b: number | null, step: number): boolean {
  if (a === null || b === null) return a === b;
  return Math.abs(a - b) < step && Math.sign(a) === Math.sign(b);
}

function sameNumbers(a: Advice, b: Advice): boolean {
  return near(a.moveCm, b.moveCm, MOVE_STEP_CM) && near(a.delayLaterMs, b.delayLaterMs, DELAY_STEP_MS);
}

export class SteadyAdvice {
  private shown: Advice | null = null;
  private shownAtHits = 0;
  private pending: AdviceAction | null = null;
  private pendingHits = 0;
  private pendingSeconds = 0;

  /** The next advice is shown at once: a person changed something. */
  reset(): void {
    this.shown = null;
    this.pending = null;
  }

  /** @returns what to show: the new advice, or the standing one with its sureness brought up to date */
  update(next: Advice, reading: Reading): Advice {
    const shown = this.shown;
    if (shown === null || reading.hits < this.shownAtHits) return this.show(next, reading);
    if (next.action === shown.action) {
      this.pending = null;
      return this.refresh(shown, next, reading);
    }
    if (!isAnswer(shown.action)) return this.show(next, reading);
    if (this.pending !== next.action) {
      this.pending = next.action;
      this.pendingHits = reading.hits;
      this.pendingSeconds = reading.streamSeconds;
    }
    const stood = reading.hits - this.pendingHits >= HITS_TO_CHANGE;
    const lost = !isAnswer(next.action) && reading.streamSeconds - this.pendingSeconds >= LOSS_SECONDS;
    return stood || lost ? this.show(next, reading) : shown;
  }

  private show(next: Advice, reading: Reading): Advice {
    this.shown = next;
    this.shownAtHits = reading.hits;
    this.pending = null;
    return next;
  }

  /** same action: words change at most once per hit, and only for a number worth it */
  private refresh(shown: Advice, next: Advice, reading: Reading): Advice {
    if (!isAnswer(next.action)) return this.show(next, reading);
    if (sameNumbers(shown, next)) {
      const kept = { ...next, text: shown.text, callOut: shown.callOut, moveCm: shown.moveCm };
      kept.delayLaterMs = shown.delayLaterMs;
      this.shown = kept;
      return kept;
    }
    return reading.hits > this.shownAtHits ? this.show(next, reading) : shown;
  }
}
