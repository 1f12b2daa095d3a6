/** The pair kinds in words: what they are called, what to plug in, what is usual and why, what to mind. */
import type { PairKindId } from '../plan/pairKinds';

export interface KindWords {
  title: string;
  /** what to plug in as A and as B, in a few words */
  aHint: string;
  bHint: string;
  /** what is usual and why: one sentence */
  expectation: string;
  /** what the microphone that comes closer may meet; null where nothing is moved */
  moveWarning: string | null;
  /** what to check before plugging in; null where nothing is unusual */
  phantomCaution: string | null;
}

const KIND_WORDS: Readonly<Record<PairKindId, KindWords>> = {
  'same-side': {
    title: 'Two on the same side',
    aHint: 'the one that stays put',
    bHint: 'the other, on the same side of the drum',
    expectation:
      'Both hear the same head move the same way, so the same polarity is usual; inverted points to a cable, a switch or a microphone wired the other way (common practice, no source).',
    moveWarning: 'Mind the head, the rim and the sticks: keep the closer microphone out of their way.',
    phantomCaution: null,
  },
  'top-bottom': {
    title: 'Top and bottom of one drum',
    aHint: 'the one above',
    bHint: 'the one below',
    expectation:
      'The heads move away from one microphone and towards the other, so inverted is usual as wired (common practice, no source).',
    moveWarning: 'Mind the heads, the rims, the wires and the sticks: keep the closer microphone out of their way.',
    phantomCaution: null,
  },
  'inside-outside': {
    title: 'Inside and outside',
    aHint: 'the one inside the shell',
    bHint: 'the one outside',
    expectation:
      'The beater pushes the air inside and the front head the same way, so the same polarity is usual, with B later by the path through the shell (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'both-sides-kick': {
    title: 'Both sides of a kick',
    aHint: 'the one on the beater side',
    bHint: 'the one on the front side',
    expectation:
      'The beaten head moves away from one microphone while the front head moves towards the other, so inverted is usual as wired (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'shell-other': {
    title: 'Shell and another',
    aHint: 'the one at the head',
    bHint: 'the one at the shell',
    expectation:
      'There is no telling which way a shell moves first: either polarity may come out (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'close-overhead': {
    title: 'Close and overhead',
    aHint: 'the close one',
    bHint: 'the overhead',
    expectation:
      'With the close one above the head, the same polarity is usual; below the head or in front of a kick, either may come out (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'two-overheads': {
    title: 'Two overheads',
    aHint: 'the one that stays put',
    bHint: 'the other overhead',
    expectation:
      'Both hear the drum from above, so the same polarity is usual; the distance can be made equal for one drum only (common practice, no source).',
    moveWarning: 'Mind the cymbals, the sticks and the stand: lower a boom only while nobody plays under it.',
    phantomCaution: null,
  },
  'close-room': {
    title: 'Close and room',
    aHint: 'the close one',
    bHint: 'the one in the room',
    expectation: 'The room is meant to be late, and either polarity may come out fuller (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'low-end-driver': {
    title: 'Low-end driver and another',
    aHint: 'the ordinary microphone',
    bHint: 'the driver used as a microphone',
    expectation:
      'A driver used as a microphone may be wired either way and hears only the lows: the sum decides (common practice, no source).',
    moveWarning: null,
    phantomCaution:
      'Phantom power may damage a loudspeaker driver or a ribbon microphone: check the wiring, and that phantom is off, before you plug it in.',
  },
  other: {
    title: 'Other',
    aHint: 'the reference',
    bHint: 'the one to compare',
    expectation: 'Nothing is known about this pair: either polarity may come out.',
    moveWarning: null,
    phantomCaution: null,
  },
};

/** The words of a pair kind. */
export function kindWords(id: PairKindId): KindWords {
  return KIND_WORDS[id];
}
