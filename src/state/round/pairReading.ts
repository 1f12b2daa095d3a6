/**
 * The pair in hand as it is read now: as the sheet would keep it, against this turn's first reading, and against what was
 * accepted. What a reading belongs to is one value, the Take; a reading counts only while all of it is still so.
 */
import { type Accessor, batch, createEffect, createMemo, createSignal, on, untrack } from 'solid-js';
import { recordPair } from '../../sheet/document/edits';
import { lastTaken, type Microphone, type Pair, type Taken } from '../../sheet/document/model';
import { type Recheck, recheck, recheckText } from '../../sheet/pair/recheck';
import { takenFrom, takenOfDrum } from '../../sheet/pair/taken';
import { clockText } from '../../text/clock';
import { microphoneName } from '../../text/names';
import type { Meter } from '../meter/meterTypes';
import type { Settings } from '../settings/settings';
import type { KitShelf } from '../shelf/kitShelf';

/** measure: to be accepted · check: a second look at what was accepted */
export type RoundMode = 'measure' | 'check';

export interface Change {
  /** ISO 8601, UTC */
  at: string;
  text: string;
}

/** What readings belong to from one beginning to the next. */
export interface Take {
  /** of the sheet's readings: the same hits */
  id: string;
  pair: string;
  a: string;
  b: string;
  drum: string;
  aInverted: boolean;
  bInverted: boolean;
  swapped: boolean;
  /** input offset taken out */
  offsetSamples: number;
}

export interface PairReading {
  /** as read now, as it would be kept; null: nothing yet, or nothing of this pair */
  now: Accessor<Taken | null>;
  /** the first reading of this turn, with which the present one is compared */
  first: Accessor<Taken | null>;
  /** against what was accepted; null: it wasn't, nothing is read yet, or which of several drums it is can't be told */
  compared: Accessor<Recheck | null>;
  /** several drums are heard, and none of them is known to be the one that was accepted */
  whichDrum: Accessor<boolean>;
  /** what changed while accepted pairs were running, the newest first */
  changes: Accessor<Change[]>;
}

export interface PairReadingActions {
  take: Accessor<Take | null>;
  /** the pair, its microphones, their switches or the inputs aren't what the take was begun with; empty: they are */
  outdated: Accessor<'' | 'pair' | 'inputs' | 'switches'>;
  /** hits count for the pair from here on. @param first compared with; null: the first one that is sure */
  beginTake(first: Taken | null): void;
  /** the newest reading of the take, sure or not, with its own switches */
  latest(): Taken | null;
  /** it goes on the sheet at once, so that a page that goes down loses nothing; null takes it off */
  noteBefore(before: Taken | null): void;
  noteChecked(found: Recheck): void;
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
  const [take, setTake] = createSignal<Take | null>(null);
  const [first, setFirst] = createSignal<Taken | null>(null);
  const [changes, setChanges] = createSignal<Change[]>([]);
  let takes = 0;
  let toldOf: Recheck | null = null;
  let latest: Taken | null = null;
  /** ids of the meter's drums: of the first reading, and of the one that is what was accepted */
  let drumOfFirst: number | null = null;
  let drumKnown: number | null = null;

  const iso = (): string => clock().toISOString();
  const microphone = (id: string): Microphone | undefined => shelf.sheet()?.microphones.find((one) => one.id === id);
  const isInverted = (id: string): boolean => microphone(id)?.inverted ?? false;
  const isDemo = (): boolean => meter.source()?.type === 'demo';

  const outdated = createMemo(() => {
    const [present, begun] = [pair(), take()];
    if (!present || !begun) return '';
    const same = begun.pair === present.id && begun.a === present.a && begun.b === present.b;
    if (!same || begun.drum !== present.drum) return 'pair';
    if (begun.swapped !== meter.swapped() || begun.offsetSamples !== meter.offsetSamples()) return 'inputs';
    return begun.aInverted !== isInverted(present.a) || begun.bInverted !== isInverted(present.b) ? 'switches' : '';
  });

  const given = (begun: Take) => ({
    takenAt: iso(),
    take: begun.id,
    initials: initials(),
    temperatureC: settings.temperatureC(),
    aInverted: begun.aInverted,
    bInverted: begun.bInverted,
    meterInvert: meter.invertB(),
    // a scene's A is the pair's A whatever is swapped; of microphones a person says which is which
    turned: isDemo() && begun.swapped,
  });

  const now = createMemo((): Taken | null => {
    const [reading, begun] = [meter.reading(), take()];
    if (begun === null || reading === null || outdated() !== '' || patching()) return null;
    if (!meter.fresh() || meter.run() === 'stopped' || !LISTENING.has(meter.page())) return null;
    return takenFrom(reading, given(begun));
  });

  /** Of several drums the one that is as accepted, or was so before; of one drum that one. */
  const found = createMemo((): { recheck: Recheck; drum: number | null } | 'which' | null => {
    const present = pair();
    const then = present?.acceptedAt ? lastTaken(present) : null;
    const [read, reading, begun] = [now(), meter.reading(), take()];
    if (!then || !read || !reading || !begun || read.hitsUsed === 0) return null;
    if (reading.drums.length < 2 || reading.drumChosen) return { recheck: recheck(then, read), drum: reading.drum };
    const each = reading.drums.map((drum) => ({
      drum: drum.id,
      recheck: recheck(then, takenOfDrum(read, drum, reading, given(begun))),
    }));
    const it = each.find(({ drum }) => drum === drumKnown) ?? each.find((one) => one.recheck.change === 'same') ?? null;
    return it === null || it.recheck.change === 'unknown' ? 'which' : it;
  });
  const compared = createMemo((): Recheck | null => {
    const it = found();
    return it === null || it === 'which' ? null : it.recheck;
  });

  // the first reading of a turn grows with its hits until something changes
  createEffect(
    on(meter.reading, (reading) => {
      const read = untrack(now);
      const present = untrack(pair);
      if (!read || !reading || !present) return;
      latest = read;
      if (!read.sure || untrack(mode) === 'check') return;
      const old = untrack(first);
      // what another drum says isn't what was done to this one
      const another = old?.take === read.take && reading.drum !== drumOfFirst;
      const unsure = old !== null && !old.sure && sameSwitches(old, read);
      const anew = old === null || another || unsure;
      const same = anew || (sameSwitches(old, read) && recheck(old, read).change === 'same');
      if (!same || (!anew && old.take === read.take && read.hitsUsed <= old.hitsUsed)) return;
      drumOfFirst = reading.drum;
      setFirst(read);
      if (anew || read.hitsUsed % SAVE_EVERY_HITS === 0) noteBefore(read);
    }),
  );

  // what changes in an accepted pair while it runs is said once, with its time
  createEffect(
    on(found, (it) => {
      const present = untrack(pair);
      if (it === null || it === 'which' || !present) return;
      if (it.recheck.change === 'same') drumKnown = it.drum;
      if (!isNews(it.recheck, toldOf)) return;
      toldOf = it.recheck;
      const text = checkedSentence(present, it.recheck);
      setChanges((list) => [{ at: iso(), text }, ...list].slice(0, CHANGES_KEPT));
      noteChecked(it.recheck);
    }),
  );

  function noteBefore(before: Taken | null): void {
    notePair((one) => (one.acceptedAt === null ? { ...one, before } : one));
  }

  function noteChecked({ change, fartherCm }: Recheck): void {
    const then = untrack(pair);
    const checked = { checkedAt: iso(), change, fartherCm };
    // a step in which another reading was accepted wasn't looked at again
    notePair((one) => (one.acceptedAt !== null && one.acceptedAt === then?.acceptedAt ? { ...one, checked } : one));
  }

  /** In every step that has the same pair: what was read stays read whatever is undone. */
  function notePair(edit: (pair: Pair) => Pair): void {
    const present = untrack(pair);
    if (!present) return;
    shelf.note((sheet) => {
      const one = sheet.pairs.find(({ id }) => id === present.id);
      if (!one || one.a !== present.a || one.b !== present.b || one.drum !== present.drum) return sheet;
      return recordPair(sheet, one.id, edit(one));
    });
  }

  function checkedSentence(present: Pair, it: Recheck): string {
    const then = lastTaken(present);
    return recheckText(
      it,
      microphoneName(microphone(present.b)?.label),
      then ? clockText(then.takenAt, clock()) : 'before',
    );
  }

  return {
    now,
    first,
    compared,
    whichDrum: () => found() === 'which',
    changes,
    take,
    outdated,
    beginTake(from) {
      const present = pair();
      if (!present) return;
      const { id, a, b, drum, checked } = present;
      // what the sheet says of the last look is what was told
      toldOf = checked && { ...checked, seenFromCm: null };
      drumOfFirst = null;
      drumKnown = null;
      batch(() => {
        setTake({
          id: `${iso()}/${++takes}`,
          pair: id,
          a,
          b,
          drum,
          aInverted: isInverted(a),
          bInverted: isInverted(b),
          swapped: meter.swapped(),
          offsetSamples: meter.offsetSamples(),
        });
        setFirst(from);
      });
      latest = null;
    },
    latest: () => latest,
    noteBefore,
    noteChecked,
    standsNow() {
      toldOf = null;
    },
    checkedSentence,
    clear() {
      latest = null;
      batch(() => [setFirst(null), setTake(null)]);
    },
    forget: () => batch(() => [setFirst(null), setTake(null), setChanges([])]),
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
