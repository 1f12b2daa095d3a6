/** The first reading of a turn: it grows with its hits until something changes, and the present one is compared with it. */
import { type Accessor, createEffect, createSignal, on, untrack } from 'solid-js';
import type { Taken } from '../../sheet/document/model';
import { recheck } from '../../sheet/pair/recheck';
import type { PairNotes } from './pairNotes';
import type { PairReadingOptions } from './pairOptions';

/** hits between two savings of a reading that isn't accepted yet */
const SAVE_EVERY_HITS = 4;

export const sameSwitches = (one: Taken, other: Taken): boolean =>
  one.aInverted === other.aInverted && one.bInverted === other.bInverted;

export interface FirstReading {
  first: Accessor<Taken | null>;
  /** the newest of the run, sure or not */
  latest(): Taken | null;
  /** a turn begins. @param from the first reading; null: the next one that is sure */
  begin(from: Taken | null): void;
  /** nothing of the run before is the latest */
  forgetLatest(): void;
}

export function createFirstReading(
  { meter, pair, mode }: Pick<PairReadingOptions, 'meter' | 'pair' | 'mode'>,
  now: Accessor<Taken | null>,
  notes: PairNotes,
): FirstReading {
  const [first, setFirst] = createSignal<Taken | null>(null);
  let latest: Taken | null = null;
  /** id of the meter's drum that it is of */
  let drum: number | null = null;

  /** @param readDrum the drum that `read` is of */
  function keep(read: Taken, readDrum: number | null): void {
    const old = untrack(first);
    // what another drum says isn't what was done to this one
    const another = old?.run === read.run && readDrum !== drum;
    const unsure = old !== null && !old.sure && sameSwitches(old, read);
    const anew = old === null || another || unsure;
    const same = anew || (sameSwitches(old, read) && recheck(old, read).change === 'same');
    if (!same || (!anew && old.run === read.run && read.hitsUsed <= old.hitsUsed)) return;
    drum = readDrum;
    setFirst(read);
    if (anew || read.hitsUsed % SAVE_EVERY_HITS === 0) notes.noteBefore(read);
  }

  createEffect(
    on(meter.reading, (reading) => {
      const read = untrack(now);
      if (!read || !reading || !untrack(pair)) return;
      latest = read;
      if (read.sure && untrack(mode) !== 'check') keep(read, reading.drum);
    }),
  );
  return {
    first,
    latest: () => latest,
    begin(from) {
      drum = null;
      setFirst(from);
    },
    forgetLatest() {
      latest = null;
    },
  };
}
