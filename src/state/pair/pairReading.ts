/**
 * The pair in hand as it is read now: as the sheet would keep it, against this turn's first reading, and against what was
 * accepted. What a reading belongs to is one value, the Run; a reading counts only while all of it is still so.
 */
import { batch, createMemo } from 'solid-js';
import type { Taken } from '../../sheet/document/model';
import { takenFrom } from '../../sheet/pair/taken';
import { isHalted } from '../meter/meterTypes';
import type { PairReading } from '../round/roundTypes';
import { createFirstReading, type FirstReading } from './firstReading';
import { createPairNotes, type PairNotes } from './pairNotes';
import type { PairReadingOptions } from './pairOptions';
import { createRun, type RunInHand } from './run';
import { createSecondLook, type SecondLook } from './secondLook';

export interface PairReadingActions
  extends PairNotes,
    Pick<RunInHand, 'run' | 'outdated'>,
    Pick<FirstReading, 'latest'>,
    Pick<SecondLook, 'standsNow'> {
  /** hits count for the pair from here on. @param first compared with; null: the first one that is sure */
  beginRun(first: Taken | null): void;
  /** no pair is in hand */
  clear(): void;
  /** another kit */
  forget(): void;
}

/** On the other pages somebody speaks into a microphone, or both hear one source. */
const LISTENING: ReadonlySet<string> = new Set(['meter', 'kit', 'hand-over']);

/** To be called where effects have an owner. */
export function createPairReading(options: PairReadingOptions): PairReadingActions & { shown: PairReading } {
  const { meter, pair, patching } = options;
  const inHand = createRun(options);
  const now = createMemo((): Taken | null => {
    const [reading, begun] = [meter.reading(), inHand.run()];
    if (begun === null || reading === null || inHand.outdated() !== '' || patching()) return null;
    if (!meter.fresh() || isHalted(meter.run()) || !LISTENING.has(meter.page())) return null;
    return takenFrom(reading, inHand.given(begun));
  });
  const notes = createPairNotes(options);
  const { first, latest, begin, forgetLatest } = createFirstReading(options, now, notes);
  const look = createSecondLook(options, inHand, now, notes);
  const drop = (): void => {
    begin(null);
    inHand.end();
  };
  return {
    ...notes,
    shown: { now, first, compared: look.compared, whichDrum: look.whichDrum, changes: look.changes },
    run: inHand.run,
    outdated: inHand.outdated,
    beginRun(from) {
      const present = pair();
      if (!present) return;
      look.begin(present.checked);
      batch(() => {
        inHand.begin(present);
        begin(from);
      });
      forgetLatest();
    },
    latest,
    standsNow: look.standsNow,
    clear() {
      forgetLatest();
      batch(drop);
    },
    forget: () =>
      batch(() => {
        drop();
        look.forgetChanges();
      }),
  };
}
