/** What is read of the pair in hand goes on the sheet: accepted, accepted as uncertain, left on purpose, or rechecked. */
import { createSignal } from 'solid-js';
import type { Action } from '../../advice/plan/alternatives';
import { recordPair } from '../../sheet/document/edits';
import { labelOf } from '../../sheet/document/labels';
import { type Later, lastTaken, type Pair, type Taken } from '../../sheet/document/model';
import { accepted, type Outcome, outcomeOf, standing } from '../../sheet/pair/outcome';
import { isPresent } from '../../sheet/pair/pairPlan';
import { actionText, byItself } from '../../sheet/pair/planWords';
import { recheck } from '../../sheet/pair/recheck';
import { pairName } from '../../text/names';
import { isDrumOpen } from '../meter/drumOpen';
import { sameSwitches } from '../pair/firstReading';
import { createPickedDrum } from './pickedDrum';
import type { Round } from './roundTypes';
import type { RoundWorks } from './roundWorks';
import type { Steps } from './steps';

/** a second Enter within this time after a step to another pair was meant for the one before, ms */
const STEP_MS = 700;
export const NOT_SURE = 'Not accepted: the reading is uncertain. Keep hitting, or accept it as uncertain.';
const NOTHING_READ = 'No reading of this pair yet.';
export const WHICH_DRUM = 'Not accepted, because several drums are heard: choose one first, or have just one drum hit.';
export const WHICH_DRUM_CHECKED = 'Nothing to compare yet: choose the drum first, or put the pair off.';

type Accepting = Pick<
  Round,
  | 'enter'
  | 'acceptUnsure'
  | 'takeNew'
  | 'leaveOnPurpose'
  | 'asking'
  | 'mayBeForMix'
  | 'acceptAnyway'
  | 'acceptForMix'
  | 'dontAccept'
>;

/** What comes with a reading: put off to the mix, or why it is left as it is. */
interface With {
  later?: Later | null;
  left?: string | null;
}

export function createAccepting(works: RoundWorks, steps: Steps): Accepting {
  const { meter, pair, mode, patching, setSaid, hand, turn } = works;
  const { now, compared } = hand.shown;
  const against = createAgainst(works);
  const picked = createPickedDrum(works);

  function put(read: Taken, given: With): void {
    const present = pair();
    if (!present) return;
    const next = outcome(works, present, read, given);
    against.forget();
    hand.standsNow();
    const label = pairName(works.microphone(present.a)?.label, works.microphone(present.b)?.label);
    // out of hand first: what is put away is no change of what is being read
    works.setPatching(true);
    works.shelf.change((sheet) => recordPair(sheet, present.id, accepted(present, next, works.iso())));
    steps.goOn();
    const how = given.left != null ? ', left on purpose' : given.later ? ', the rest in the mix' : '';
    setSaid(`${label}: accepted${how}${read.sure ? '' : ', uncertain'}.`);
  }

  /** Sure, and nothing of the plan is left but what can be done in the mix as well: else it is asked once. */
  function putSure(): void {
    const [present, read] = [pair(), now()];
    if (!present || !read?.sure) setSaid(NOT_SURE);
    else if (!asItWas(present, read) && picked.asks()) return;
    else if (isDecided(present, read)) put(read, {});
    else if (isDone(read.plan)) put(read, { later: delayOnly(read.plan) });
    else against.ask();
  }

  function putAnyway(left: string | null): void {
    if (works.refuses()) return;
    const read = now();
    if (read && read.hits > 0) put(read, { left });
    else setSaid(NOTHING_READ);
  }

  /** It is open which drum is meant: nothing is read of the pair's own, and that is said. */
  function isOpen(): boolean {
    const open = isDrumOpen(meter);
    if (open) setSaid(mode() === 'check' ? WHICH_DRUM_CHECKED : WHICH_DRUM);
    return open;
  }

  function noteLook(present: Pair): void {
    const found = compared();
    if (!found || !now()?.sure) return void setSaid('Nothing to compare yet: keep hitting, or put the pair off.');
    hand.noteChecked(found);
    const sentence = hand.checkedSentence(present, found);
    steps.goOn();
    setSaid(sentence);
  }

  return {
    asking: against.asking,
    mayBeForMix: () => against.asking() !== null && (now()?.plan?.moveCm ?? null) === null,
    enter() {
      const present = pair();
      if (!present || meter.opening() || works.clock().getTime() - turn.steppedMs < STEP_MS) return;
      if (patching()) steps.patched();
      else if (works.refuses() || isOpen()) return;
      else if (mode() === 'measure') putSure();
      else noteLook(present);
    },
    acceptUnsure() {
      if (mode() === 'check' || patching() || isOpen()) return;
      // a certain one is accepted as Enter does, which asks where the plan isn't done
      if (now()?.sure && !works.refuses()) putSure();
      else putAnyway(null);
    },
    takeNew() {
      if (works.refuses() || isOpen()) return;
      const read = now();
      if (read?.sure) put(read, {});
      else setSaid(NOT_SURE);
    },
    leaveOnPurpose(reason) {
      if (!isOpen()) putAnyway(reason);
    },
    acceptAnyway(reason) {
      if (against.asking() !== null) putAnyway(reason);
    },
    acceptForMix() {
      if (works.refuses()) return;
      const read = now();
      if (against.asking() === null || !read?.plan) return;
      const { invertB, delayMs, moveCm } = read.plan;
      if (moveCm !== null)
        return setSaid(
          'You can’t move a mic in the mix: stop the drummer and move it now, or accept the pair unchanged.',
        );
      put(read, { later: { invertB, delayMs } });
    },
    dontAccept() {
      if (against.asking() === null) return;
      against.forget();
      setSaid('');
    },
  };
}

/** The plan is done, or all that is left of it is a delay, which belongs to the mix. */
const isDone = (plan: Action | null): boolean => plan === null || isPresent(plan) || delayOnly(plan) !== null;

function delayOnly(plan: Action | null): Later | null {
  return plan && !plan.invertB && plan.delayMs !== null ? { invertB: false, delayMs: plan.delayMs } : null;
}

/** The question before a pair is accepted against the plan; it goes with what it was asked of. */
function createAgainst({ shelf, pair, mode, patching, hand }: RoundWorks) {
  const [asked, setAsked] = createSignal<{ pair: string; run: string } | null>(null);
  const { now } = hand.shown;
  return {
    ask() {
      const [present, read] = [pair(), now()];
      if (present && read) setAsked({ pair: present.id, run: read.run });
    },
    forget: () => void setAsked(null),
    asking(): string | null {
      const [of, sheet, present, read] = [asked(), shelf.sheet(), pair(), now()];
      if (!of || !sheet || !present || !read?.plan || mode() !== 'measure' || patching()) return null;
      if (of.pair !== present.id || of.run !== read.run || !read.sure || isDone(read.plan)) return null;
      const nameOf = (id: string): string => labelOf(sheet, id);
      const plan = actionText(sheet, present, read.plan, { inverted: byItself(sheet, present, read.plan), nameOf });
      return `The plan says ${plan}. Leave the pair as it is, on purpose?`;
    },
  };
}

/** Read again, and as it was: what was done and noted stays. */
function asItWas(present: Pair, read: Taken): boolean {
  const then = lastTaken(present);
  const anew = present.acceptedAt !== null;
  return anew && then !== null && sameSwitches(then, read) && recheck(then, read).change === 'same';
}

/** Read again, and as it was when a person decided about it. */
const isDecided = (present: Pair, read: Taken): boolean =>
  asItWas(present, read) && (present.done?.leftOnPurpose || present.done?.later != null);

function outcome(works: RoundWorks, present: Pair, read: Taken, { later = null, left = null }: With): Outcome {
  if (works.mode() === 'check' || (left === null && later === null && asItWas(present, read)))
    return standing(present, read);
  const from = present.acceptedAt !== null && present.after !== null ? present.before : works.hand.shown.first();
  return outcomeOf(from, read, { later: read.sure ? later : null, left });
}
