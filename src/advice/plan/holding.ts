/**
 * Which plan is held, so that what is shown doesn't flicker between hits. Readings come some 30 times a second, hits once a
 * second: what is shown follows the hits. A hit counts once, however many readings it lasts.
 *
 * 1. The first plan after a start, a restart (the count of hits falls) or `reset` is shown at once.
 * 2. At once, too: `fix-input` in and out, a microphone on the move or moved, and the first answer after `hit-more`.
 * 3. Every other change of action waits until it was given at two successive hits; giving it up in between starts anew.
 *    An answer that is lost (to `cannot-tell` or `hit-more`) goes after LOSS_SECONDS of the stream even without a hit, and
 *    what three hits in a row did not confirm goes, whatever they said instead.
 * 4. The same action with another number (0.5 cm, 0.02 ms, a gain by 1 dB or more away), or that has become as good as can be,
 *    or is no more: waits for two successive hits on the same side of what is shown. Smaller changes never touch it. A number
 *    that comes or goes is treated like another number.
 * 5. Until then the sentence and its figures stay; how sure it is, its notes and its cautions are always the newest, unless
 *    another action is waiting: then everything stays, since a new "how sure" doesn't belong to the old answer.
 */
import { answerOf, type Reading } from '../../reading/reading';
import type { AdviceAction, PlanFigures } from './planTypes';

/** successive hits that must say the same */
const HITS_TO_CHANGE = 2;
/** successive hits without a word for what is shown */
const HITS_TO_DROP = 3;
/** a lost answer is not shown for longer, s of the stream */
const LOSS_SECONDS = 1.5;
/** smaller changes of a number are none */
const MOVE_STEP_CM = 0.5;
const DELAY_STEP_MS = 0.02;
const GAIN_STEP_DB = 1;

/** What to show: the next one, the one that is shown, or the shown one with all that stands beside the next. */
export type Held = 'next' | 'shown' | 'shown-with-newest-beside';

export interface Holding {
  /** @returns what to show for these figures and the reading that they came from. Real-time safe: no (may allocate) */
  feed(next: PlanFigures, reading: Reading): Held;
  /** a person changed something (pair kind, invert, swap): the next one is shown at once */
  reset(): void;
}

const ANSWERS: readonly AdviceAction[] = [
  'leave',
  'invert',
  'move',
  'invert-and-move',
  'delay-later',
  'invert-and-delay',
];

/** Does the action rest on a reading that holds? */
function isAnswer(action: AdviceAction): boolean {
  return ANSWERS.includes(action);
}

/** What waits to be shown. */
interface Waiting {
  /** the action, and on which side of the shown number */
  key: string;
  /** hits at which it was given, in a row */
  hits: number;
  /** hits in a row that gave something else than what is shown, this or another */
  against: number;
  lastHit: number;
  sinceSeconds: number;
}

export function createHolding(): Holding {
  let shown: PlanFigures | null = null;
  let lastHit = 0;
  let waiting: Waiting | null = null;

  const show = (figures: PlanFigures): Held => {
    shown = figures;
    waiting = null;
    return 'next';
  };

  /** Count `key` once per hit. */
  const stood = (key: string, reading: Reading): Waiting => {
    const fresh = waiting === null || reading.hits > waiting.lastHit ? 1 : 0;
    const against = (waiting?.against ?? 0) + fresh;
    if (waiting === null || waiting.key !== key) {
      waiting = { key, hits: 1, against, lastHit: reading.hits, sinceSeconds: reading.streamSeconds };
    } else {
      waiting.hits += fresh;
      waiting.against = against;
      waiting.lastHit = reading.hits;
    }
    return waiting;
  };

  return {
    reset(): void {
      shown = null;
      waiting = null;
    },

    feed(next: PlanFigures, reading: Reading): Held {
      const restarted = reading.hits < lastHit;
      lastHit = reading.hits;
      if (shown === null || restarted) return show(next);

      if (next.action !== shown.action) {
        if (atOnce(shown.action, next.action, reading)) return show(next);
        const { hits, against, sinceSeconds } = stood(next.action, reading);
        const lost = !isAnswer(next.action) && reading.streamSeconds - sinceSeconds >= LOSS_SECONDS;
        return hits >= HITS_TO_CHANGE || against >= HITS_TO_DROP || lost ? show(next) : 'shown';
      }

      if (!isAnswer(next.action)) return show(next);
      const side = sideOf(shown, next);
      if (side === null) waiting = null;
      else if (stood(`${next.action} ${side}`, reading).hits >= HITS_TO_CHANGE) return show(next);
      return 'shown-with-newest-beside';
    },
  };
}

function atOnce(from: AdviceAction, to: AdviceAction, reading: Reading): boolean {
  if (from === 'fix-input' || to === 'fix-input') return true;
  const said = answerOf(reading);
  if (said.state === 'following' || said.reason === 'moved') return true;
  return from === 'hit-more' && isAnswer(to);
}

/** On which side of what is shown the next one lies; null where it is the same for people. */
function sideOf(shown: PlanFigures, next: PlanFigures): string | null {
  const sides = [
    side(shown.moveCm, next.moveCm, MOVE_STEP_CM),
    side(shown.delayLaterMs, next.delayLaterMs, DELAY_STEP_MS),
    side(shown.lowDb, next.lowDb, GAIN_STEP_DB),
    side(shown.allDb, next.allDb, GAIN_STEP_DB),
    shown.fine === next.fine ? '' : next.fine ? 'good' : 'no longer good',
    shown.chosen === next.chosen ? '' : next.chosen ? 'chosen' : 'not chosen',
    shown.timed === next.timed ? '' : next.timed ? 'timed' : 'no longer timed',
  ];
  return sides.every((one) => one === '') ? null : sides.join('/');
}

function side(shown: number | null, next: number | null, step: number): string {
  if (shown === null || next === null) return shown === next ? '' : next === null ? 'gone' : 'come';
  // rounding to the step must not hide a full step
  if (Math.abs(next - shown) < step * 0.999) return '';
  return next > shown ? 'up' : 'down';
}
