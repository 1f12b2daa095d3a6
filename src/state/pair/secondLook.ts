/** The pair in hand against what was accepted of it; what changes while it runs is said once, with its time. */
import { type Accessor, createEffect, createMemo, createSignal, on, untrack } from 'solid-js';
import type { Reading } from '../../reading/reading';
import { type Checked, lastTaken, type Taken } from '../../sheet/document/model';
import { type Recheck, recheck } from '../../sheet/pair/recheck';
import { type TakenWith, takenOfDrum } from '../../sheet/pair/taken';
import type { Change } from '../round/roundTypes';
import type { PairNotes } from './pairNotes';
import type { PairReadingOptions } from './pairOptions';
import type { RunInHand } from './run';

/** so many changes are kept to be read again */
const CHANGES_KEPT = 20;

/** `which`: several drums are heard, and none is known to be the one that was accepted */
export type FoundAgain = { recheck: Recheck; drum: number | null } | 'which';

export interface SecondLook {
  compared: Accessor<Recheck | null>;
  whichDrum: Accessor<boolean>;
  changes: Accessor<Change[]>;
  /** a run begins. @param checked what the sheet says of the last look is what was told */
  begin(checked: Checked | null): void;
  /** another reading stands from here on: what was told of the one before is over */
  standsNow(): void;
  forgetChanges(): void;
}

export function createSecondLook(
  { meter, pair, clock }: Pick<PairReadingOptions, 'meter' | 'pair' | 'clock'>,
  { run, given }: Pick<RunInHand, 'run' | 'given'>,
  now: Accessor<Taken | null>,
  notes: PairNotes,
): SecondLook {
  const [changes, setChanges] = createSignal<Change[]>([]);
  let toldOf: Recheck | null = null;
  /** id of the meter's drum that is as was accepted, or was so before */
  let drumKnown: number | null = null;

  const found = createMemo((): FoundAgain | null => {
    const present = pair();
    const then = present?.acceptedAt ? lastTaken(present) : null;
    const [read, reading, begun] = [now(), meter.reading(), run()];
    if (!then || !read || !reading || !begun || read.hitsUsed === 0) return null;
    return lookAgain(then, read, reading, () => given(begun), drumKnown);
  });
  const compared = createMemo((): Recheck | null => {
    const it = found();
    return it === null || it === 'which' ? null : it.recheck;
  });

  createEffect(
    on(found, (it) => {
      const present = untrack(pair);
      if (it === null || it === 'which' || !present) return;
      if (it.recheck.change === 'same') drumKnown = it.drum;
      if (!isNews(it.recheck, toldOf)) return;
      toldOf = it.recheck;
      const change = { at: clock().toISOString(), text: notes.checkedSentence(present, it.recheck) };
      setChanges((list) => [change, ...list].slice(0, CHANGES_KEPT));
      notes.noteChecked(it.recheck);
    }),
  );
  return {
    compared,
    whichDrum: () => found() === 'which',
    changes,
    begin(checked) {
      toldOf = checked && { ...checked, pathsCm: checked.pathsCm ?? null, seenFromCm: null };
      drumKnown = null;
    },
    standsNow() {
      toldOf = null;
    },
    forgetChanges: () => void setChanges([]),
  };
}

/**
 * Of several drums the one that is known; of one drum that one.
 * @param drumKnown id of the meter's drum that was as accepted; null: none was yet
 */
export function lookAgain(
  then: Taken,
  read: Taken,
  reading: Reading,
  given: () => TakenWith,
  drumKnown: number | null,
): FoundAgain {
  if (reading.drums.length < 2 || reading.drumChosen) return { recheck: recheck(then, read), drum: reading.drum };
  const each = reading.drums.map((drum) => ({
    drum: drum.id,
    recheck: recheck(then, takenOfDrum(read, drum, reading, given())),
  }));
  const it = each.find(({ drum }) => drum === drumKnown) ?? each.find((one) => one.recheck.change === 'same') ?? null;
  return it === null || it.recheck.change === 'unknown' ? 'which' : it;
}

/** Another change than the one that was told, or back to how it was. */
function isNews(found: Recheck, told: Recheck | null): boolean {
  if (found.change === 'unknown') return false;
  if (told === null) return found.change !== 'same';
  if (found.change !== told.change) return true;
  const by = Math.abs((found.fartherCm ?? 0) - (told.fartherCm ?? 0));
  return found.change === 'moved' && by > (found.seenFromCm ?? 0);
}
