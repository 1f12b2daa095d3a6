/** States and reasons in words for people: what is wrong, and what to do next. */
import type { ReadingReason, ReadingState } from '../../reading/codes';
import { answerOf, type HitCounts, type Reading, type Said } from '../../reading/reading';
import { counted, hitsText } from '../../text/count';
import { capital } from '../../text/sentence';

interface Words {
  /** a clause that can follow "because" */
  because: string;
  /** a clause that says what to do */
  next: string;
  /** a few words for "can't tell: …" */
  short: string;
}

const WORDS: Readonly<Record<Exclude<ReadingReason, 'agreed' | 'too-few-hits'>, Words>> = {
  'nothing-yet': {
    because: 'no hit has been heard yet',
    next: 'have one drum struck alone, single hits about a second apart',
    short: 'no hit yet',
  },
  'a-silent': {
    because: 'A is silent',
    next: 'check its cable, its channel and its gain, then have the drum struck again',
    short: 'A is silent',
  },
  'b-silent': {
    because: 'B is silent',
    next: 'check its cable, its channel and its gain, then have the drum struck again',
    short: 'B is silent',
  },
  'both-silent': {
    because: 'A and B are silent',
    next: 'check cables, channels and gains, then have the drum struck again',
    short: 'A and B are silent',
  },
  'gain-copy': {
    because: 'A and B carry one signal, gain and sign aside',
    next: 'check the routing, so that each microphone arrives on a channel of its own',
    short: 'one signal on both inputs',
  },
  'bit-identical': {
    because: 'A and B are sample for sample the same',
    next: 'one input feeds both channels, so give B an input of its own',
    short: 'one signal on both inputs',
  },
  'clipped-a': {
    because: 'A clips in the attack of more than half of the hits',
    next: "turn A's gain down and have the drum struck again",
    short: 'A clips',
  },
  'clipped-b': {
    because: 'B clips in the attack of more than half of the hits',
    next: "turn B's gain down and have the drum struck again",
    short: 'B clips',
  },
  'hits-disagree': {
    because: "the hits don't agree on one delay",
    next: 'have one drum struck alone, always in the same place, with everything else quiet',
    short: "the hits don't agree",
  },
  'witnesses-disagree': {
    because: 'the first arrivals and the waveforms point to different delays',
    next: 'have the drum struck alone and harder, or bring the two microphones nearer to it',
    short: 'two witnesses disagree',
  },
  'arrival-hidden': {
    because: 'the first push is hidden in noise or in another sound just before it',
    next: 'have the drum struck alone and harder, with everything else quiet',
    short: 'the first push is hidden',
  },
  'low-end-only-a': {
    because: 'A hears the low end only, where no arrival can be read',
    next: 'go by the sum, or compare B with a microphone that hears the attack',
    short: 'A hears the low end only',
  },
  'low-end-only-b': {
    because: 'B hears the low end only, where no arrival can be read',
    next: 'go by the sum, or compare A with a microphone that hears the attack',
    short: 'B hears the low end only',
  },
  'several-drums': {
    because: 'the hits come from several drums, and each has its own delay',
    next: 'have one drum struck alone',
    short: 'several drums',
  },
  moving: {
    because: 'a microphone is on the move',
    next: 'the reading is provisional until it has stood still for a few hits',
    short: 'on the move',
  },
  moved: {
    because: 'something moved, so the earlier hits no longer count',
    next: 'keep striking the same drum',
    short: 'something moved',
  },
  'no-common-signal': {
    because: 'A and B have nothing in common',
    next: 'check that both microphones hear the drum that is struck',
    short: 'nothing in common',
  },
};

/** Reasons that belong to a state; the first stands in for any other. Missing: every reason but `agreed` may come. */
const REASONS_OF: Partial<Record<ReadingState, readonly ReadingReason[]>> = {
  measured: ['agreed'],
  'no-signal': ['both-silent', 'a-silent', 'b-silent'],
  'same-signal': ['gain-copy', 'bit-identical'],
  overloaded: ['clipped-a', 'clipped-b'],
};
const STAND_IN: Partial<Record<ReadingState, ReadingReason>> = {
  listening: 'too-few-hits',
  following: 'moving',
  unclear: 'hits-disagree',
};

/** What the words about a state need of a reading, or of one of its drums. */
export type Stated = Pick<Said, 'state' | 'reason' | keyof HitCounts> & Pick<Reading, 'hitsNeeded'>;

/** What a reading says, for its words. */
export const statedOf = (reading: Reading): Stated => ({ ...answerOf(reading), hitsNeeded: reading.hitsNeeded });

function reasonOf(reading: Stated): ReadingReason {
  const list = REASONS_OF[reading.state];
  if (list) return list.includes(reading.reason) ? reading.reason : (list[0] as ReadingReason);
  return reading.reason === 'agreed' ? (STAND_IN[reading.state] ?? 'hits-disagree') : reading.reason;
}

/** Hits that agree, of the hits in the running. */
function agreeing(reading: HitCounts): [agree: number, of: number] {
  const of = Math.max(reading.hitsPooled, reading.hitsUsed);
  const agree = reading.agreement === null ? reading.hitsUsed : Math.round(reading.agreement * of);
  return [agree, of];
}

/** "10 of 11 hits in the running": fewer may be in the running than were heard of the drum, and both are on the page. */
export function agreeingText(reading: HitCounts, whose = ''): string {
  const [agree, of] = agreeing(reading);
  return `${agree} of ${hitsText(of)}${whose}${reading.hits > of ? ' in the running' : ''}`;
}

/** The reason taken apart: because, next, and a few words. */
export function reasonWords(reading: Stated): Words {
  const reason = reasonOf(reading);
  if (reason === 'agreed') {
    return {
      because: `${agreeingText(reading)} agree on polarity and delay`,
      next: 'the reading holds',
      short: 'the hits agree',
    };
  }
  if (reason === 'too-few-hits') {
    const { hitsPooled, hitsNeeded } = reading;
    const count =
      hitsPooled === 0
        ? 'no usable hit yet'
        : hitsPooled < hitsNeeded
          ? `hit ${hitsPooled} of ${hitsNeeded}`
          : 'too few hits agree as yet';
    return { because: count, next: 'keep striking the same drum, with about a second between the hits', short: count };
  }
  return WORDS[reason];
}

/**
 * A recording is over before there was enough for a reading: said as a fact, since nobody strikes any more. Null: the reason
 * isn't a matter of time.
 */
export function endedWords(reading: Stated): { text: string; short: string } | null {
  const { hitsPooled, hitsNeeded, state } = reading;
  const reason = reasonOf(reading);
  if (state === 'following' || reason === 'moving') {
    const text = 'A microphone was still on the move when this recording ended: it has no reading to give.';
    return { text, short: 'On the move until the end' };
  }
  const needed = `${hitsNeeded} are needed`;
  if (reason === 'nothing-yet') return { text: `No hit in this recording; ${needed}.`, short: 'No hit' };
  if (reason === 'moved') {
    return { text: `Something moved, and too few hits follow in this recording; ${needed}.`, short: 'Too few hits' };
  }
  if (reason !== 'too-few-hits') return null;
  const usable = counted(hitsPooled, 'usable hit');
  if (hitsPooled === 0) return { text: `No usable hit in this recording; ${needed}.`, short: 'No usable hit' };
  if (hitsPooled < hitsNeeded) {
    return { text: `Only ${usable} in this recording; ${needed}.`, short: 'Too few hits' };
  }
  return { text: `Too few of the ${usable} in this recording agree.`, short: 'Too few hits agree' };
}

/** One sentence for people about the reading's state: what is the matter, and what to do next; `ended`: nobody strikes any more. */
export function reasonSentence(reading: Reading, ended = false): string {
  const stated = statedOf(reading);
  const over = ended ? endedWords(stated) : null;
  if (over) return over.text;
  const { because, next } = reasonWords(stated);
  return `${capital(because)}: ${next}.`;
}
