/** The pair in hand as it is read now: as the sheet would keep it, against this turn's first reading, and against what was accepted. */
import { type Accessor, batch, createEffect, createMemo, createSignal, on, untrack } from 'solid-js';
import { recordPair } from '../sheet/edits';
import { type KitSheet, lastTaken, type Microphone, type Pair, type Taken } from '../sheet/model';
import { type Recheck, recheck, recheckText } from '../sheet/recheck';
import { takenFrom } from '../sheet/taken';
import { clockText } from './clock';
import type { KitShelf } from './kitShelf';
import type { Meter } from './meter';
import type { Settings } from './settings';

/** measure: to be accepted · check: a second look at what was accepted */
export type RoundMode = 'measure' | 'check';

export interface Change {
  /** ISO 8601, UTC */
  at: string;
  text: string;
}

export interface PairReading {
  /** as read now, as it would be kept; null: nothing yet */
  now: Accessor<Taken | null>;
  /** the first reading of this turn, with which the present one is compared */
  first: Accessor<Taken | null>;
  /** against what was accepted; null: it wasn't, or nothing is read yet */
  compared: Accessor<Recheck | null>;
  /** what changed while accepted pairs were running, the newest first */
  changes: Accessor<Change[]>;
}

export interface PairReadingActions {
  /** hits count for the pair from here on */
  beginTake(): void;
  /** something was done: from here on hits are compared with this reading, sure or not */
  beginAfter(read: Taken | null): void;
  noteChecked(id: string, found: Recheck): void;
  /** another reading stands from here on: what was told of the one before is over */
  standsNow(): void;
  /** a sentence about what a second look found */
  checkedSentence(pair: Pair, found: Recheck): string;
  /** no pair is in hand */
  clear(): void;
  /** another kit */
  forget(): void;
}

export interface PairReadingOptions {
  meter: Meter;
  shelf: KitShelf;
  settings: Settings;
  pair: Accessor<Pair | null>;
  mode: Accessor<RoundMode>;
  patching: Accessor<boolean>;
  initials: Accessor<string>;
  clock(): Date;
}

/** On the other pages somebody speaks into a microphone, or both hear one source. */
const LISTENING: ReadonlySet<string> = new Set(['meter', 'kit', 'hand-over']);
/** so many changes are kept to be read again */
const CHANGES_KEPT = 20;
/** hits between two savings of a reading that isn't accepted yet */
const SAVE_EVERY_HITS = 4;

export function createPairReading(options: PairReadingOptions): PairReading & PairReadingActions {
  const { meter, shelf, settings, pair, mode, patching, initials, clock } = options;
  const [first, setFirst] = createSignal<Taken | null>(null);
  const [changes, setChanges] = createSignal<Change[]>([]);
  let take = '';
  let takes = 0;
  let toldOf: Recheck | null = null;
  /** readings from before a restart still come in for a moment: stream seconds of the last of them */
  let staleFromSeconds: number | null = null;

  const iso = (): string => clock().toISOString();
  const microphone = (id: string): Microphone | undefined => shelf.sheet()?.microphones.find((one) => one.id === id);

  const now = createMemo((): Taken | null => {
    const present = pair();
    const reading = meter.reading();
    if (present === null || reading === null || patching() || !LISTENING.has(meter.page())) return null;
    if (staleFromSeconds !== null && reading.hits > 0 && reading.streamSeconds >= staleFromSeconds) return null;
    staleFromSeconds = null;
    return takenFrom(reading, {
      takenAt: iso(),
      take,
      initials: initials(),
      temperatureC: settings.temperatureC(),
      aInverted: microphone(present.a)?.inverted ?? false,
      bInverted: microphone(present.b)?.inverted ?? false,
      meterInvert: meter.invertB(),
      // a scene's A is the pair's A whatever is swapped; of microphones a person says which is which
      turned: meter.source()?.type === 'demo' && meter.swapped(),
    });
  });
  const compared = createMemo((): Recheck | null => {
    const present = pair();
    const then = present?.acceptedAt ? lastTaken(present) : null;
    const read = now();
    return then && read && read.hitsUsed > 0 ? recheck(then, read) : null;
  });

  // the first reading of a turn grows with its hits until something changes
  createEffect(
    on([() => meter.reading()?.hitsUsed, () => meter.reading()?.state], () => {
      const read = untrack(now);
      const present = untrack(pair);
      if (!read?.sure || !present || untrack(mode) === 'check') return;
      const old = untrack(first);
      const same = old === null || (sameSwitches(old, read) && recheck(old, read).change === 'same');
      if (!same || (old && old.take === read.take && read.hitsUsed <= old.hitsUsed)) return;
      setFirst(read);
      // kept at once, so that a page that goes down loses nothing
      if (present.acceptedAt === null && (old === null || read.hitsUsed % SAVE_EVERY_HITS === 0))
        noteBefore(present.id, read);
    }),
  );

  // what changes in an accepted pair while it runs is said once, with its time
  createEffect(
    on(compared, (found) => {
      const present = untrack(pair);
      if (!found || !present || !untrack(now)?.sure) return;
      if (!isNews(found, toldOf)) return;
      toldOf = found;
      const text = checkedSentence(present, found);
      setChanges((list) => [{ at: iso(), text }, ...list].slice(0, CHANGES_KEPT));
      noteChecked(present.id, found);
    }),
  );

  function noteBefore(id: string, before: Taken): void {
    notePair(id, (one) => (one.acceptedAt === null ? { ...one, before } : one));
  }

  function noteChecked(id: string, { change, fartherCm }: Recheck): void {
    const checked = { checkedAt: iso(), change, fartherCm };
    notePair(id, (one) => (one.acceptedAt === null ? one : { ...one, checked }));
  }

  function notePair(id: string, edit: (pair: Pair) => Pair): void {
    shelf.note((sheet: KitSheet) => {
      const one = sheet.pairs.find((it) => it.id === id);
      return one ? recordPair(sheet, id, edit(one)) : sheet;
    });
  }

  function checkedSentence({ b, before, after }: Pair, found: Recheck): string {
    const then = after ?? before;
    return recheckText(found, microphone(b)?.label || 'B', then ? clockText(then.takenAt, clock()) : 'before');
  }

  return {
    now,
    first,
    compared,
    changes,
    beginTake() {
      const present = pair();
      take = `${iso()}/${++takes}`;
      toldOf = null;
      staleFromSeconds = meter.reading()?.streamSeconds ?? null;
      // a reading that was left in the middle is where this one goes on; an accepted pair is read anew
      setFirst(present && present.acceptedAt === null ? present.before : null);
    },
    beginAfter(read) {
      const present = pair();
      staleFromSeconds = meter.reading()?.streamSeconds ?? null;
      setFirst(read);
      if (present && read) noteBefore(present.id, read);
    },
    noteChecked,
    standsNow() {
      toldOf = null;
    },
    checkedSentence,
    clear: () => void setFirst(null),
    forget: () => batch(() => [setFirst(null), setChanges([])]),
  };
}

export const sameSwitches = (one: Taken, other: Taken): boolean =>
  one.aInverted === other.aInverted && one.bInverted === other.bInverted;

/** Another change than the one that was told, or back to how it was. */
function isNews(found: Recheck, told: Recheck | null): boolean {
  if (found.change === 'unknown') return false;
  if (told === null) return found.change !== 'same';
  if (found.change !== told.change) return true;
  const by = Math.abs((found.fartherCm ?? 0) - (told.fartherCm ?? 0));
  return found.change === 'moved' && by > (found.seenFromCm ?? 0);
}
