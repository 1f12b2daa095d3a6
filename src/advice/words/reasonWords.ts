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
    next: 'have just one drum hit, with about a second between hits',
    short: 'no hit yet',
  },
  'a-silent': {
    because: 'A is silent',
    next: 'with the drummer stopped and monitors down, check its cable, channel and gain, and phantom if it’s a condenser',
    short: 'A is silent',
  },
  'b-silent': {
    because: 'B is silent',
    next: 'with the drummer stopped and monitors down, check its cable, channel and gain, and phantom if it’s a condenser',
    short: 'B is silent',
  },
  'both-silent': {
    because: 'A and B are silent',
    next: 'with the drummer stopped and monitors down, check cables, channels and gains, and phantom for condensers',
    short: 'A and B are silent',
  },
  'gain-copy': {
    because: 'A and B carry the same signal, apart from gain or polarity',
    next: 'give each mic a channel of its own',
    short: 'same signal on both',
  },
  'bit-identical': {
    because: 'A and B carry the same signal',
    next: 'one input feeds both channels, so give B an input of its own',
    short: 'same signal on both',
  },
  'clipped-a': {
    because: 'A clips in the attack of more than half the hits',
    next: 'turn A’s gain down, then have the drum hit again',
    short: 'A clips',
  },
  'clipped-b': {
    because: 'B clips in the attack of more than half the hits',
    next: 'turn B’s gain down, then have the drum hit again',
    short: 'B clips',
  },
  'hits-disagree': {
    because: 'the hits don’t agree on one delay',
    next: 'have just one drum hit, always in the same spot, everything else quiet',
    short: 'the hits don’t agree',
  },
  'push-and-shape-disagree': {
    because: 'the first push and the whole attack give different delays',
    next: 'have just that drum hit harder; or stop the drummer, bring both mics closer, step away, then four hits',
    short: 'first push and attack disagree',
  },
  'arrival-hidden': {
    because: 'the first push is buried in noise or in another sound',
    next: 'have just that drum hit harder, everything else quiet',
    short: 'the first push is buried',
  },
  'lows-only-a': {
    because: 'A hears only the lows of the drum, which can’t be timed',
    next: 'go by the sum, or measure B against a mic that hears the attack',
    short: 'A hears only the lows',
  },
  'lows-only-b': {
    because: 'B hears only the lows of the drum, which can’t be timed',
    next: 'go by the sum, or measure A against a mic that hears the attack',
    short: 'B hears only the lows',
  },
  'several-drums': {
    because: 'the hits come from several drums, each with its own delay',
    next: 'have just one drum hit, everything else quiet',
    short: 'several drums',
  },
  'which-drum': {
    because: 'several drums are heard, and neither mic is clearly at one of them',
    next: 'choose one, or have just one drum hit',
    short: 'which drum?',
  },
  moving: {
    because: 'a mic is being moved',
    next: 'stop the drummer, move it, step away, then four hits',
    short: 'a mic is being moved',
  },
  moved: {
    because: 'something moved, so the earlier hits no longer count',
    next: 'keep hitting the same drum',
    short: 'something moved',
  },
  'no-common-signal': {
    because: 'A and B don’t match at all',
    next: 'check that both mics hear the drum',
    short: 'A and B don’t match',
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
        next: 'the reading is steady',
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
  next: 'keep hitting the same drum, about once a second',
  short: count,
});

/** A recording is over before there was enough for a reading: said as a fact, since nobody strikes any more. */
export function endedWords(reason: EndedReason): { text: string; short: string } {
  switch (reason.code) {
    case 'still-moving':
      return {
        text: 'A mic was still being moved when this recording ended: no reading.',
        short: 'A mic was being moved until the end',
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
