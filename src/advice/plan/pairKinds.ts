/**
 * The pair kinds: what two microphones are to each other. A kind says what to expect and whether a move makes sense; it
 * never influences what is read. What is "usual" here is common practice, no source; tolerances are this program's choice.
 * What they are called, and why that is usual, is said in words/pairKindWords.ts.
 */
import type { Polarity } from '../../reading/reading';

export const PAIR_KIND_IDS = [
  'same-side',
  'top-bottom',
  'inside-outside',
  'both-sides-kick',
  'shell-other',
  'close-overhead',
  'two-overheads',
  'close-room',
  'low-end-driver',
  'other',
] as const;
export type PairKindId = (typeof PAIR_KIND_IDS)[number];

export interface PairKind {
  id: PairKindId;
  /** polarity of the first arrivals as usually wired, no switch pressed */
  expectedPolarity: Polarity | 'either';
  /** can the two be brought to one distance from the drum by moving a stand? */
  movable: boolean;
  /** largest path difference that a move can take away, cm; null: no such limit, or not movable at all */
  movableUpToCm: number | null;
  /** path difference below which neither a move nor a later delay is worth it, cm */
  toleranceCm: number;
  /** a path difference that two such microphones hardly have, cm: is it the right pair? null: none */
  doubtBeyondCm: number | null;
  /** largest |delay| to look for, ms */
  maxLagMs: number;
  /** phantom power may harm one of the two: it is to be checked before plugging in */
  phantomMayHarm: boolean;
}

/** Reach of the delay search, ms: 11 ms is 3.8 m; a room microphone needs more. */
export const NEAR_LAG_MS = 11;
const ROOM_LAG_MS = 34;

const STILL = {
  movable: false,
  movableUpToCm: null,
  doubtBeyondCm: null,
  phantomMayHarm: false,
} as const;

export const PAIR_KINDS: Readonly<Record<PairKindId, PairKind>> = {
  'same-side': {
    ...STILL,
    id: 'same-side',
    expectedPolarity: 'same',
    movable: true,
    // first notch at 17 kHz: nothing left to gain
    toleranceCm: 1,
    doubtBeyondCm: 30,
    maxLagMs: NEAR_LAG_MS,
  },
  'top-bottom': {
    ...STILL,
    id: 'top-bottom',
    expectedPolarity: 'inverted',
    movable: true,
    // beyond this the drum's depth is in the path, which no stand takes away
    movableUpToCm: 6,
    toleranceCm: 2,
    maxLagMs: NEAR_LAG_MS,
  },
  'inside-outside': {
    ...STILL,
    id: 'inside-outside',
    expectedPolarity: 'same',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
  'both-sides-kick': {
    ...STILL,
    id: 'both-sides-kick',
    expectedPolarity: 'inverted',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
  'shell-other': {
    ...STILL,
    id: 'shell-other',
    expectedPolarity: 'either',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
  'close-overhead': {
    ...STILL,
    id: 'close-overhead',
    expectedPolarity: 'either',
    toleranceCm: 5,
    maxLagMs: NEAR_LAG_MS,
  },
  'two-overheads': {
    ...STILL,
    id: 'two-overheads',
    expectedPolarity: 'same',
    movable: true,
    toleranceCm: 3,
    doubtBeyondCm: 100,
    maxLagMs: NEAR_LAG_MS,
  },
  'close-room': {
    ...STILL,
    id: 'close-room',
    expectedPolarity: 'either',
    toleranceCm: 30,
    maxLagMs: ROOM_LAG_MS,
  },
  'low-end-driver': {
    ...STILL,
    id: 'low-end-driver',
    expectedPolarity: 'either',
    toleranceCm: 5,
    maxLagMs: NEAR_LAG_MS,
    phantomMayHarm: true,
  },
  other: {
    ...STILL,
    id: 'other',
    expectedPolarity: 'either',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
};

/** What is known of a pair kind. */
export function pairKind(id: PairKindId): PairKind {
  return PAIR_KINDS[id];
}
