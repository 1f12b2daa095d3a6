/** What the round notes of the pair in hand by itself, in every step of the sheet's past: read stays read whatever is undone. */
import { untrack } from 'solid-js';
import { recordPair } from '../../sheet/document/edits';
import { lastTaken, type Pair, type Taken } from '../../sheet/document/model';
import { LAST_READING, type Recheck, recheckText } from '../../sheet/pair/recheck';
import { clockText } from '../../text/clock';
import type { PairReadingOptions } from './pairOptions';

export interface PairNotes {
  /** it goes on the sheet at once, so that a page that goes down loses nothing; null takes it off */
  noteBefore(before: Taken | null): void;
  noteChecked(found: Recheck): void;
  /** a sentence about what a second look found */
  checkedSentence(pair: Pair, found: Recheck): string;
}

export function createPairNotes({
  shelf,
  pair,
  clock,
}: Pick<PairReadingOptions, 'shelf' | 'pair' | 'clock'>): PairNotes {
  function notePair(edit: (pair: Pair) => Pair): void {
    const present = untrack(pair);
    if (!present) return;
    shelf.note((sheet) => {
      const one = sheet.pairs.find(({ id }) => id === present.id);
      if (!one || one.a !== present.a || one.b !== present.b || one.drum !== present.drum) return sheet;
      return recordPair(sheet, one.id, edit(one));
    });
  }
  return {
    noteBefore: (before) => notePair((one) => (one.acceptedAt === null ? { ...one, before } : one)),
    noteChecked({ change, fartherCm, pathsCm }) {
      const then = untrack(pair);
      const checked = { checkedAt: clock().toISOString(), change, fartherCm, ...(pathsCm ? { pathsCm } : {}) };
      // a step in which another reading was accepted wasn't looked at again
      notePair((one) => (one.acceptedAt !== null && one.acceptedAt === then?.acceptedAt ? { ...one, checked } : one));
    },
    checkedSentence(present, found) {
      const then = lastTaken(present);
      const b = shelf.sheet()?.microphones.find(({ id }) => id === present.b);
      return recheckText(found, b?.label.trim() || 'B', then ? clockText(then.takenAt, clock()) : LAST_READING);
    },
  };
}
