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
    aHint: 'the mic that stays put',
    bHint: 'the other mic, on the same side of the drum',
    expectation:
      'Both are on the same side of the same head, so the same polarity is usual; inverted suggests a cable, a switch or a mic wired the other way (common practice, no source).',
    moveWarning: 'Mind the head, the rim and the sticks: keep the closer mic out of their way.',
    phantomCaution: null,
  },
  'top-bottom': {
    title: 'Top and bottom of one drum',
    aHint: 'the top mic',
    bHint: 'the bottom mic',
    expectation:
      'The heads move away from one mic and towards the other, so inverted is usual with normal wiring (common practice, no source).',
    moveWarning: 'Mind the heads, the rims, the snare wires and the sticks: keep the closer mic out of their way.',
    phantomCaution: null,
  },
  'inside-outside': {
    title: 'Inside and outside',
    aHint: 'the mic inside the shell',
    bHint: 'the mic outside',
    expectation:
      'The beater pushes the air inside and the front head the same way, so the same polarity is usual; B is later by the path through the shell (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'both-sides-kick': {
    title: 'Both sides of a kick',
    aHint: 'the mic on the beater side',
    bHint: 'the mic on the front side',
    expectation:
      'The batter head moves away from one mic while the front head moves towards the other, so inverted is usual with normal wiring (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'shell-other': {
    title: 'Shell mic and another mic',
    aHint: 'the mic at the head',
    bHint: 'the mic at the shell',
    expectation: 'A shell may move either way first, so either polarity may come out (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'close-overhead': {
    title: 'Close mic and overhead',
    aHint: 'the close mic',
    bHint: 'the overhead',
    expectation:
      'With the close mic above the head, the same polarity is usual; below it, inverted; in front of a kick, either may come out (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'two-overheads': {
    title: 'Two overheads',
    aHint: 'the overhead that stays put',
    bHint: 'the other overhead',
    expectation:
      'Both hear the drum from above, so the same polarity is usual; the distance can be made equal for one drum only (common practice, no source).',
    moveWarning:
      'Mind the cymbals and the sticks. Hold the boom before you loosen it; never swing or lower it over anyone.',
    phantomCaution: null,
  },
  'close-room': {
    title: 'Mic and room mic',
    aHint: 'the mic nearer to the drum',
    bHint: 'the room mic',
    expectation:
      'The room mic is meant to be late, and either polarity may come out fuller (common practice, no source).',
    moveWarning: null,
    phantomCaution: null,
  },
  'low-end-driver': {
    title: 'Speaker as mic and another mic',
    aHint: 'the ordinary mic',
    bHint: 'the speaker used as a mic',
    expectation:
      'A speaker used as a mic may be wired either way and hears only the lows: go by the sum (common practice, no source).',
    moveWarning: null,
    phantomCaution:
      'Phantom power can damage a speaker or a ribbon mic: check the wiring, and that phantom is off, before you plug it in.',
  },
  other: {
    title: 'Other',
    aHint: 'the reference mic',
    bHint: 'the mic to compare with it',
    expectation: 'No rule of thumb for this pair: either polarity may come out.',
    moveWarning: null,
    phantomCaution: null,
  },
};

/** The words of a pair kind. */
export function kindWords(id: PairKindId): KindWords {
  return KIND_WORDS[id];
}
