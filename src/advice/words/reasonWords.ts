/** States and reasons in words for people: what is wrong, and what to do next. */
import type { Reading } from '../../reading/reading';
import { counted, hitsText } from '../../text/count';
import { capital } from '../../text/sentence';
import { type Agreeing, type EndedReason, type Reason, reasonNow, statedOf } from '../plan/reasons';

interface Words {
  /** a clause that can follow "because" */
  because: string;
  /** a clause that says what to do */
  next: string;
  /** a few words for "can't tell: …" */
  short: string;
}

type Plain = Exclude<Reason['code'], 'agreed' | 'no-usable-hit' | 'too-few-hits' | 'too-few-agree'>;

const WORDS: Readonly<Record<Plain, Words>> = {
  'nothing-yet': {
    because: 'no hit has been heard yet',
    next: 'ask for single hits on one drum, about a second apart',
    short: 'no hit yet',
  },
  'a-silent': {
    because: 'A is silent',
    next: 'check its cable, channel and gain, then ask for the drum again',
    short: 'A is silent',
  },
  'b-silent': {
    because: 'B is silent',
    next: 'check its cable, channel and gain, then ask for the drum again',
    short: 'B is silent',
  },
  'both-silent': {
    because: 'A and B are silent',
    next: 'check cables, channels and gains, then ask for the drum again',
    short: 'A and B are silent',
  },
  'gain-copy': {
    because: 'A and B are one signal, apart from gain or polarity',
    next: 'route each microphone to a channel of its own',
    short: 'one signal on both inputs',
  },
  'bit-identical': {
    because: 'A and B are identical, sample for sample',
    next: 'one input feeds both channels, so give B an input of its own',
    short: 'one signal on both inputs',
  },
  'clipped-a': {
    because: 'A clips in the attack of more than half the hits',
    next: "turn A's gain down, then ask for the drum again",
    short: 'A clips',
  },
  'clipped-b': {
    because: 'B clips in the attack of more than half the hits',
    next: "turn B's gain down, then ask for the drum again",
    short: 'B clips',
  },
  'hits-disagree': {
    because: "the hits don't agree on one delay",
    next: 'ask for one drum alone, hit in the same spot, everything else quiet',
    short: "the hits don't agree",
  },
  'push-and-shape-disagree': {
    because: 'the start of the hits and their shape point to different timings',
    next: 'ask for the drum alone and harder, or bring both microphones closer to it',
    short: 'start and shape disagree',
  },
  'arrival-hidden': {
    because: 'the start of the hit is buried in noise or in another sound',
    next: 'ask for the drum alone and harder, everything else quiet',
    short: 'the start is buried',
  },
  'lows-only-a': {
    because: 'A hears only the lows of the drum, which can’t be timed',
    next: 'go by the sum, or compare B with a microphone that hears the attack',
    short: 'A hears only the lows',
  },
  'lows-only-b': {
    because: 'B hears only the lows of the drum, which can’t be timed',
    next: 'go by the sum, or compare A with a microphone that hears the attack',
    short: 'B hears only the lows',
  },
  'several-drums': {
    because: 'the hits are of several drums, each with its own delay',
    next: 'have one drum struck alone',
    short: 'several drums',
  },
  moving: {
    because: 'a microphone is on the move',
    next: 'the reading is provisional until it stands still for a few hits',
    short: 'on the move',
  },
  moved: {
    because: 'something moved, so the earlier hits no longer count',
    next: 'keep hitting the same drum',
    short: 'something moved',
  },
  'no-common-signal': {
    because: 'A and B have nothing in common',
    next: 'check that both microphones hear the drum',
    short: 'nothing in common',
  },
};

/** "10 of the last 11 hits": fewer may count than were heard of the drum, and both are on the page. */
export function agreeingText({ agree, of, moreHeard }: Agreeing, whose = ''): string {
  return `${agree} of ${moreHeard ? 'the last ' : ''}${hitsText(of)}${whose}`;
}

/** The reason taken apart: because, next, and a few words. */
export function reasonWords(reason: Reason): Words {
  switch (reason.code) {
    case 'agreed':
      return {
        because: `${agreeingText(reason)} agree on polarity and delay`,
        next: 'the reading holds',
        short: 'the hits agree',
      };
    case 'no-usable-hit':
      return stillToCome('no usable hit yet');
    case 'too-few-hits':
      return stillToCome(`hit ${reason.hits} of ${reason.needed}`);
    case 'too-few-agree':
      return stillToCome('too few hits agree so far');
    default:
      return WORDS[reason.code];
  }
}

const stillToCome = (count: string): Words => ({
  because: count,
  next: 'keep hitting the same drum, about a second apart',
  short: count,
});

/** A recording is over before there was enough for a reading: said as a fact, since nobody strikes any more. */
export function endedWords(reason: EndedReason): { text: string; short: string } {
  switch (reason.code) {
    case 'still-moving':
      return {
        text: 'A microphone was still on the move when this recording ended: no reading.',
        short: 'On the move until the end',
      };
    case 'no-hit':
      return { text: `No hit in this recording; ${neededText(reason)}.`, short: 'No hit' };
    case 'moved':
      return {
        text: `Something moved, and too few hits follow in this recording; ${neededText(reason)}.`,
        short: 'Too few hits',
      };
    case 'no-usable-hit':
      return { text: `No usable hit in this recording; ${neededText(reason)}.`, short: 'No usable hit' };
    case 'too-few-hits':
      return { text: `Only ${usableText(reason)} in this recording; ${neededText(reason)}.`, short: 'Too few hits' };
    case 'too-few-agree':
      return { text: `Too few of the ${usableText(reason)} in this recording agree.`, short: 'Too few hits agree' };
  }
}

const neededText = ({ needed }: { needed: number }): string => `${needed} are needed`;
const usableText = ({ hits }: { hits: number }): string => counted(hits, 'usable hit');

/** One sentence: what is the matter, and what to do next. */
export function reasonText(reason: Reason | EndedReason): string {
  if ('ended' in reason) return endedWords(reason).text;
  const { because, next } = reasonWords(reason);
  return `${capital(because)}: ${next}.`;
}

/** One sentence for people about the reading's state: what is the matter, and what to do next; `ended`: nobody strikes any more. */
export function reasonSentence(reading: Reading, ended = false): string {
  return reasonText(reasonNow(statedOf(reading), ended));
}
