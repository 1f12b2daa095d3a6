/** What is read of the pair in hand goes on the sheet: accepted, accepted as unsure, left on purpose, or looked at again. */
import { advise } from '../../advice/advise';
import { recordPair } from '../../sheet/document/edits';
import { lastTaken, type Pair, type Taken } from '../../sheet/document/model';
import { accepted, type Outcome, outcomeOf, standing } from '../../sheet/pair/outcome';
import { recheck } from '../../sheet/pair/recheck';
import { pairName } from '../../text/names';
import { sameSwitches } from '../pair/firstReading';
import type { Round } from './roundTypes';
import type { RoundWorks } from './roundWorks';
import type { Steps } from './steps';

/** a second Enter within this time after a step to another pair was meant for the one before, ms */
const STEP_MS = 700;
export const NOT_SURE = 'Not accepted: the meter isn’t sure. Keep hitting, or accept it as unsure.';
const NOTHING_READ = 'Nothing has been read of this pair yet.';

type Accepting = Pick<Round, 'enter' | 'acceptUnsure' | 'takeNew' | 'leaveOnPurpose'>;

export function createAccepting(works: RoundWorks, steps: Steps): Accepting {
  const { meter, pair, mode, patching, setSaid, hand, turn } = works;
  const { now, compared } = hand.shown;

  function put(read: Taken, left: string | null): void {
    const present = pair();
    if (!present) return;
    const next = outcome(works, present, read, left);
    hand.standsNow();
    const label = pairName(works.microphone(present.a)?.label, works.microphone(present.b)?.label);
    // out of hand first: what is put away is no change of what is being read
    works.setPatching(true);
    works.shelf.change((sheet) => recordPair(sheet, present.id, accepted(present, next, works.iso())));
    steps.goOn();
    setSaid(`${label}: accepted${left === null ? '' : ' as left on purpose'}${read.sure ? '' : ', not sure'}.`);
  }

  function putSure(): void {
    const read = now();
    if (read?.sure) put(read, null);
    else setSaid(NOT_SURE);
  }

  function putAnyway(left: string | null): void {
    const read = now();
    if (read && read.hits > 0) put(read, left);
    else setSaid(NOTHING_READ);
  }

  function noteLook(present: Pair): void {
    const found = compared();
    if (!found || !now()?.sure) return void setSaid('Nothing to compare yet: keep hitting, or skip the pair.');
    hand.noteChecked(found);
    const sentence = hand.checkedSentence(present, found);
    steps.goOn();
    setSaid(sentence);
  }

  return {
    enter() {
      const present = pair();
      if (!present || meter.opening() || works.clock().getTime() - turn.steppedMs < STEP_MS) return;
      if (patching()) steps.patched();
      else if (mode() === 'measure') putSure();
      else noteLook(present);
    },
    acceptUnsure() {
      if (mode() !== 'check' && !patching()) putAnyway(null);
    },
    takeNew: putSure,
    leaveOnPurpose: putAnyway,
  };
}

function outcome(works: RoundWorks, present: Pair, read: Taken, left: string | null): Outcome {
  const then = lastTaken(present);
  const anew = present.acceptedAt !== null;
  // read again, and as it was: what was done and noted stays
  const asItWas =
    anew && left === null && then !== null && sameSwitches(then, read) && recheck(then, read).change === 'same';
  if (works.mode() === 'check' || asItWas) return standing(present, read);
  const from = anew && present.after !== null ? present.before : works.hand.shown.first();
  return outcomeOf(from, read, { delayLaterMs: read.sure && left === null ? delayLaterMs(works) : null, left });
}

/** To be delayed in the mix, ms, positive B: as the very reading says that is put away. */
function delayLaterMs({ meter, isDemo }: RoundWorks): number | null {
  const reading = meter.reading();
  const a = reading && advise(reading, meter.context()).delayLaterMs;
  if (!a) return null;
  return isDemo() && meter.swapped() ? a : 0 - a;
}
