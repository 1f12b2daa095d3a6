/** Why a reading says what it says, for a teacher and for an expert: how the answer came about. */
import type { Method } from '../../reading/codes';
import type { Reading } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { laterText, spanText } from '../../text/length';
import { signedMsText } from '../../text/time';
import type { AdviceContext } from '../advice';
import type { WhichDrum } from '../plan/drums';
import { type LeftOut, type Why, whyOf } from '../plan/whyFacts';
import { whichDrumText } from './drumWords';
import { agreeingText, reasonText } from './reasonWords';

/** How the answer came about, or why there is none: three to six short sentences. */
export function whySentences(reading: Reading, context: AdviceContext): string[] {
  return whyOf(reading, context).map(sayWhy);
}

const DECIDED_BY: Readonly<Record<Method, string>> = {
  'first-arrival': 'Decided by the first push: where it begins in each microphone, and which way it goes.',
  waveform: 'Decided by the shape of the whole attack, because first pushes can’t be picked cleanly here.',
  'low-band':
    'Decided by the first push of the low end, because above it the two microphones don’t show this drum alone.',
};

function sayWhy(why: Why): string {
  switch (why.code) {
    case 'decided-by':
      return DECIDED_BY[why.method];
    case 'agreed': {
      const where = `${laterText(why.pathCm)} (${signedMsText(why.delayMs)})`;
      return `${agreeingText(why.agreeing, ' of this drum')} agree: polarity ${why.polarity}, ${where}.`;
    }
    case 'repeats-within':
      return `From hit to hit it repeats within ±${spanText(why.cm)}.`;
    case 'true-to':
      return why.cm === null
        ? 'How true it is isn’t known: the best fit of the attacks doesn’t confirm it.'
        : `It is true to about ±${spanText(why.cm)} (90 %): that holds the scatter, how far the first push and the best fit of the attacks lie apart, and what unlike microphones can hide.`;
    case 'waveforms': {
      const start = 'Another witness, the correlation of the waveforms,';
      if (why.confirm) return `${start} peaks there too, with polarity ${why.polarity}.`;
      return `${start} peaks ${signedMsText(why.apartMs)} from there with polarity ${why.polarity}: it can sit on a later swing, so it doesn’t count here.`;
    }
    case 'reason':
      return reasonText(why.reason);
    case 'counted-for-the-sum': {
      const count = `${hitsText(why.hits)} ${ofWhich(why.which)} ${why.hits === 1 ? 'counts' : 'count'}`;
      return `${count} for the sum only: none has a delay or a first push to agree on.`;
    }
    case 'in-the-running':
      return `An answer needs ${why.needed} hits ${ofWhich(why.which)} that agree; ${why.hits} are in the running.`;
    case 'agree-with-each-other':
      return `${agreeingText(why.agreeing, ` ${ofWhich(why.which)}`)} agree with each other.`;
    case 'witnesses-disagree':
      return 'Two witnesses are sure of different things, so neither is believed.';
    case 'agreement-is-no-proof':
      return 'Noise that hides a soft first push shifts every hit alike: that they agree is no proof.';
    case 'newest-only':
      return 'While it moves, only the newest hits count.';
    case 'left-out':
      return leftOutText(why.counts, why.ofNewest);
  }
}

const ofWhich = (which: WhichDrum | null): string =>
  which === null ? 'of one drum' : `of this drum (${whichDrumText(which)})`;

/** "Left out: 12 of another drum, 2 clipped." */
function leftOutText(counts: [LeftOut, number][], ofNewest: number | null): string {
  const parts = counts.map(([fate, n]) => `${n} ${n === 1 ? (LEFT_OUT_ONE[fate] ?? LEFT_OUT[fate]) : LEFT_OUT[fate]}`);
  return `Left out${ofNewest === null ? '' : ` of the newest ${ofNewest}`}: ${parts.join(', ')}.`;
}

const LEFT_OUT: Readonly<Record<LeftOut, string>> = {
  'no-arrival': 'without a clear first push',
  disagrees: 'that disagree',
  'other-drum': 'of another drum',
  clipped: 'clipped',
  'one-side-only': 'heard by one microphone only',
  old: 'that no longer count',
  'two-drums': 'of two drums at once',
  'too-soon': 'too close to the one before',
};

const LEFT_OUT_ONE: Readonly<Partial<Record<LeftOut, string>>> = {
  disagrees: 'that disagrees',
  old: 'that no longer counts',
};
