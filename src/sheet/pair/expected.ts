/** What was to be expected of a pair beside what was read, and what to look at where they differ. */
import { type PairKindId, pairKind } from '../../advice/plan/pairKinds';
import { opposite } from '../../reading/polarity';
import type { Polarity } from '../../reading/reading';
import { labelOf } from '../document/labels';
import type { KitSheet, Pair, Taken } from '../document/model';

export interface Expected {
  /** as the two polarity switches stood at the reading; null: either may come out */
  polarity: Polarity | null;
  /**
   * met · other: the polarity isn't the usual one · low-band: arrival and low band don't belong together ·
   * open: nothing is usual, or the reading isn't sure
   */
  verdict: 'met' | 'other' | 'low-band' | 'open';
  /** "Expected inverted, read inverted." and what to look at */
  text: string;
}

/** The low band contradicts the arrival only if it is clear by so much, dB … */
const CLEAR_DB = 3;
/** … and if the delay turns the band's middle by less than this, so that delay alone can't explain it: an eighth of a turn */
const LEAST_TURN = 1 / 8;

/** What is usual of such a pair. @param turned one of its two switches is inverted. @returns null: either may come out */
export function usualPolarity(kind: PairKindId, turned: boolean): Polarity | null {
  const usual = pairKind(kind).expectedPolarity;
  if (usual === 'either') return null;
  return turned ? opposite(usual) : usual;
}

/** What is usual as wired (src/advice/plan/pairKinds.ts), and how the two switches turn it. */
export function expectedOf(sheet: KitSheet, pair: Pair, taken: Taken): Expected {
  const turned = taken.aInverted !== taken.bInverted;
  const polarity = usualPolarity(pair.kind, turned);
  const read = taken.sure ? taken.polarity : null;
  const expectation = polarity ? `Expected ${polarity}` : 'Either polarity may come out';
  const switched = turned ? `, ${labelOf(sheet, taken.aInverted ? pair.a : pair.b)} inverted at its switch` : '';
  if (read === null) return { polarity, verdict: 'open', text: `${expectation}${switched}; not sure what was read.` };
  const said = `${expectation}, read ${read}${switched}`;
  if (lowBandContradicts(taken, read))
    return {
      polarity,
      verdict: 'low-band',
      text: `${said}. The low band says the opposite of the first push: compare the low-cut and voicing switches of the two first.`,
    };
  if (polarity === null) return { polarity, verdict: 'open', text: `${said}.` };
  if (polarity === read) return { polarity, verdict: 'met', text: `${said}: as expected.` };
  return {
    polarity,
    verdict: 'other',
    text: `${said}. Look at the cable, the polarity switch and the patch before you invert anything.`,
  };
}

/** Fuller the other way round than first push and delay alone would make it. */
function lowBandContradicts({ fuller, fullerDb, fullerLowHz, fullerHighHz, delayMs }: Taken, read: Polarity): boolean {
  if (fuller === null || fuller === 'either' || fullerDb === null || Math.abs(fullerDb) < CLEAR_DB) return false;
  if (fullerLowHz === null || fullerHighHz === null || delayMs === null) return false;
  const turn = (Math.abs(delayMs) / 1000) * Math.sqrt(fullerLowHz * fullerHighHz);
  return turn < LEAST_TURN && (fuller === 'as-is') !== (read === 'same');
}
