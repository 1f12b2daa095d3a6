/**
 * The pair kinds: what two microphones are to each other. A kind says what to expect and whether a move makes sense; it
 * never influences what is read. What is "usual" here is common practice, no source; tolerances are this program's choice.
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
  title: string;
  /** what to plug in as A and as B, in a few words */
  aHint: string;
  bHint: string;
  /** polarity of the first arrivals as usually wired, no switch pressed */
  expectedPolarity: Polarity | 'either';
  /** what is usual and why: one sentence */
  expectation: string;
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
  /** what the microphone that comes closer may meet; null where nothing is near */
  moveWarning: string | null;
  /** what to check before plugging in; null where nothing is unusual */
  phantomCaution: string | null;
}

/** Reach of the delay search, ms: 11 ms is 3.8 m; a room microphone needs more. */
const NEAR_LAG_MS = 11;
const ROOM_LAG_MS = 34;

const STILL = {
  movable: false,
  movableUpToCm: null,
  doubtBeyondCm: null,
  moveWarning: null,
  phantomCaution: null,
} as const;

export const PAIR_KINDS: Readonly<Record<PairKindId, PairKind>> = {
  'same-side': {
    ...STILL,
    id: 'same-side',
    title: 'Two on the same side',
    aHint: 'the one that stays put',
    bHint: 'the other, on the same side of the drum',
    expectedPolarity: 'same',
    expectation:
      'Both hear the same head move the same way, so the same polarity is usual; inverted points to a cable, a switch or a microphone wired the other way (common practice, no source).',
    movable: true,
    // first notch at 17 kHz: nothing left to gain
    toleranceCm: 1,
    doubtBeyondCm: 30,
    maxLagMs: NEAR_LAG_MS,
    moveWarning: 'Mind the head, the rim and the path of the stick: the closer microphone may meet them.',
  },
  'top-bottom': {
    ...STILL,
    id: 'top-bottom',
    title: 'Top and bottom of one drum',
    aHint: 'the one above',
    bHint: 'the one below',
    expectedPolarity: 'inverted',
    expectation:
      'The heads move away from one microphone and towards the other, so inverted is usual as wired (common practice, no source).',
    movable: true,
    // beyond this the drum's depth is in the path, which no stand takes away
    movableUpToCm: 6,
    toleranceCm: 2,
    maxLagMs: NEAR_LAG_MS,
    moveWarning: 'Mind the heads, the rims, the wires and the path of the stick: the closer microphone may meet them.',
  },
  'inside-outside': {
    ...STILL,
    id: 'inside-outside',
    title: 'Inside and outside',
    aHint: 'the one inside the shell',
    bHint: 'the one outside',
    expectedPolarity: 'same',
    expectation:
      'The air inside and the front head are pushed the same way, so the same polarity is usual, B late by the way through the shell (common practice, no source).',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
  'both-sides-kick': {
    ...STILL,
    id: 'both-sides-kick',
    title: 'Both sides of a kick',
    aHint: 'the one on the beater side',
    bHint: 'the one on the front side',
    expectedPolarity: 'inverted',
    expectation:
      'The beaten head moves away from one microphone while the front head moves towards the other, so inverted is usual as wired (common practice, no source).',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
  'shell-other': {
    ...STILL,
    id: 'shell-other',
    title: 'Shell and another',
    aHint: 'the one at the head',
    bHint: 'the one at the shell',
    expectedPolarity: 'either',
    expectation: 'A shell has no push of its own to expect: either polarity may come out (common practice, no source).',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
  'close-overhead': {
    ...STILL,
    id: 'close-overhead',
    title: 'Close and overhead',
    aHint: 'the close one',
    bHint: 'the overhead',
    expectedPolarity: 'either',
    expectation:
      'With the close one above the head the same polarity is usual; with it below the head or in front of a kick either may come out (common practice, no source).',
    toleranceCm: 5,
    maxLagMs: NEAR_LAG_MS,
  },
  'two-overheads': {
    ...STILL,
    id: 'two-overheads',
    title: 'Two overheads',
    aHint: 'the one that stays put',
    bHint: 'the other overhead',
    expectedPolarity: 'same',
    expectation:
      'Both hear the drum from above, so the same polarity is usual; the distance can be made equal for one drum only (common practice, no source).',
    movable: true,
    toleranceCm: 3,
    doubtBeyondCm: 100,
    maxLagMs: NEAR_LAG_MS,
    moveWarning: 'Mind the cymbals, the sticks and the stand: lower a boom only while nobody plays under it.',
  },
  'close-room': {
    ...STILL,
    id: 'close-room',
    title: 'Close and room',
    aHint: 'the close one',
    bHint: 'the one in the room',
    expectedPolarity: 'either',
    expectation: 'The room is meant to come late and either polarity may come out fuller (common practice, no source).',
    toleranceCm: 30,
    maxLagMs: ROOM_LAG_MS,
  },
  'low-end-driver': {
    ...STILL,
    id: 'low-end-driver',
    title: 'Low-end driver and another',
    aHint: 'the ordinary microphone',
    bHint: 'the driver used as a microphone',
    expectedPolarity: 'either',
    expectation:
      'A driver used as a microphone may be wired either way and hears the low end only: the sum decides (common practice, no source).',
    toleranceCm: 5,
    maxLagMs: NEAR_LAG_MS,
    phantomCaution:
      'A loudspeaker driver or a ribbon microphone may be harmed by phantom power: check the wiring and that phantom is off before you plug it in.',
  },
  other: {
    ...STILL,
    id: 'other',
    title: 'Other',
    aHint: 'the reference',
    bHint: 'the one to compare',
    expectedPolarity: 'either',
    expectation: 'Nothing is known about this pair: either polarity may come out.',
    toleranceCm: 3,
    maxLagMs: NEAR_LAG_MS,
  },
};

/** The record of a pair kind. */
export function pairKind(id: PairKindId): PairKind {
  return PAIR_KINDS[id];
}
