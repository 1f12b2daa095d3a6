/** The kit sheet: microphones, pairs, and what was read and done. Plain data: it is stored, sent and compared as it is. */
import type { Action, Timing } from '../../advice/plan/alternatives';
import type { PairKindId } from '../../advice/plan/pairKinds';
import type { SumByDelay } from '../../advice/plan/sumByDelay';
import type { Fuller } from '../../reading/codes';
import type { Polarity } from '../../reading/reading';

/** A place on the drawing of the kit from above: x from the drummer's left, y from the front, both 0–1. */
export interface Place {
  x: number;
  y: number;
}

export interface Microphone {
  id: string;
  label: string;
  /** the drum it is meant for; empty: the whole kit (overheads, room) */
  drum: string;
  /** where on the drum: top, inside, left … */
  side: string;
  note: string;
  /** as patched: "3", "stage box 12" */
  input: string;
  /** the polarity switch as set: true = inverted */
  inverted: boolean;
  /** low-cut, pad and contour switch as set, in the microphone's own words; empty: none or off */
  lowCut: string;
  pad: string;
  contour: string;
  /** where it was put on the drawing; null: where such a microphone usually stands (src/sheet/drawing/places.ts) */
  place: Place | null;
}

/** A reading as it was taken, with its evidence. */
export interface Taken {
  /** ISO 8601, UTC */
  takenAt: string;
  /** readings of one run of the meter hear the same hits */
  run: string;
  initials: string;
  temperatureC: number;
  sampleRate: number;
  /** the meter was sure; else `reason` says why not */
  sure: boolean;
  reason: string;
  polarity: Polarity | null;
  /** arrival at B minus arrival at A */
  delayMs: number | null;
  /** 90 % */
  uncertaintyMs: number | null;
  /** repeats within */
  spreadMs: number | null;
  hits: number;
  hitsUsed: number;
  /** 0–1 */
  agreement: number | null;
  fuller: Fuller | null;
  fullerDb: number | null;
  fullerLowHz: number | null;
  fullerHighHz: number | null;
  /** Re γ in the drum's low octave, levels equal, −1…1 */
  lowCoherency: number | null;
  /** Re γ in each of LOW_OCTAVES_HZ (src/reading/reading.ts), levels equal, −1…1; null where the hits don't carry it */
  octaveCoherency: (number | null)[];
  /** A+B re one microphone alone, levels equal, dB, at SUM_PICTURE_HZ; null where the hits don't carry it. Null: no picture */
  sumDb: (number | null)[] | null;
  /**
   * what A+B would come to, by either way that the switch between the two may stand: the present first, then with a delay, with
   * a move; from it the plan is worked out anew for other switches. Empty: neither sum nor arrival carries anything
   */
  timings: Timing[];
  /** what A+B would come to with any delay near the arrival; null: no arrival holds, or a sheet from before version 4 */
  sumByDelay: SumByDelay | null;
  /** what the meter recommended at that moment, whole; null: nothing */
  plan: Action | null;
  /** how the two polarity switches stood then */
  aInverted: boolean;
  bInverted: boolean;
  /** of a whole take: the tracks of the pair's A and B; left out: it was read at the meter */
  files?: [a: string, b: string];
  /** the interface, the file or the example that it was read from; left out: not kept */
  source?: string;
}

/** Frequencies of a sum's small picture, Hz: 20 Hz to 20 kHz, twenty a decade. */
export const SUM_PICTURE_HZ: readonly number[] = Array.from({ length: 61 }, (_, i) => 20 * 10 ** (i / 20));

/** What is to be done later, in the mix, all of it together; from the switches as they stood at the reading that counts. */
export interface Later {
  /** one of the two is inverted */
  invertB: boolean;
  /** positive: A is delayed, negative: B, ms; null: none */
  delayMs: number | null;
}

export interface Done {
  /** whose polarity was inverted */
  inverted: 'a' | 'b' | 'both' | null;
  /** B was moved by so much, towards the drum positive, cm */
  movedCm: number | null;
  /** to be done later, in the mix; null: nothing was put off to it */
  later: Later | null;
  /** as good a result as any; the note says why */
  leftOnPurpose: boolean;
  note: string;
}

/** A second look at a pair that was accepted. */
export interface Checked {
  /** ISO 8601, UTC */
  checkedAt: string;
  change: 'same' | 'moved' | 'polarity' | 'unknown';
  /** by how much B was farther from the drum than as accepted (negative: closer), path in cm */
  fartherCm: number | null;
  /** B’s path beyond A’s then and now, cm, of which that is the difference; left out: not known */
  pathsCm?: [then: number, now: number];
}

export interface Pair {
  id: string;
  /** ids of microphones */
  a: string;
  b: string;
  kind: PairKindId;
  /** the drum to be struck */
  drum: string;
  before: Taken | null;
  after: Taken | null;
  done: Done | null;
  /** ISO 8601, UTC; null: still to do */
  acceptedAt: string | null;
  /** the last second look since then */
  checked: Checked | null;
}

export interface KitSheet {
  id: string;
  name: string;
  note: string;
  /** of the recording, for delays in samples */
  sampleRate: number;
  temperatureC: number;
  microphones: Microphone[];
  pairs: Pair[];
  /** which microphone a drum's delays are told against; at most one a drum */
  references: { drum: string; microphone: string }[];
  /** which drum decides about the switch of a microphone that hears all drums; at most one a microphone */
  follows: { microphone: string; drum: string }[];
  /** where drums were put on the drawing, at most one place a drum; the others stand where they usually do */
  drumPlaces: { drum: string; place: Place }[];
}

/** The microphone with that id; undefined: it isn't on the sheet. */
export const microphoneOf = (sheet: KitSheet, id: string): Microphone | undefined =>
  sheet.microphones.find((one) => one.id === id);

/** How its polarity switch stands. */
export const isInverted = (sheet: KitSheet, id: string): boolean => microphoneOf(sheet, id)?.inverted ?? false;

/** The reading that counts for the kit: nobody stands for one that wasn't accepted. */
export const countedTaken = (pair: Pair): Taken | null => (pair.acceptedAt === null ? null : lastTaken(pair));

/** The pair's newest reading: the one after what was done, else the one before. */
export const lastTaken = ({ before, after }: Pair): Taken | null => after ?? before;

/** The 90 % of a reading; one of 0 is none. */
export const knownUncertaintyMs = ({ uncertaintyMs }: Taken): number | null => uncertaintyMs || null;

export function newMicrophone(id: string, label: string, drum: string, side: string, input: string): Microphone {
  return { id, label, drum, side, note: '', input, inverted: false, lowCut: '', pad: '', contour: '', place: null };
}

export function newPair(id: string, a: string, b: string, kind: PairKindId, drum: string): Pair {
  return { id, a, b, kind, drum, before: null, after: null, done: null, acceptedAt: null, checked: null };
}
