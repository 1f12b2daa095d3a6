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
  'first-arrival': 'Decided by the first push: when it starts in each microphone, and which way it goes.',
  waveform: 'Decided by the whole attack: there is no clean first push to pick here.',
  'low-band': 'Decided by the first push in the lows: above them the two microphones don’t hear this drum alone.',
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
      return `Hit-to-hit spread: ±${spanText(why.cm)}.`;
    case 'true-to':
      return why.cm === null
        ? 'Accuracy not known: the best fit of the attacks doesn’t confirm it.'
        : `Accurate to ±${spanText(why.cm)} (90 %): that counts the spread, how far the first push and the best fit of the attacks lie apart, and what unlike microphones can hide.`;
    case 'waveforms': {
      const start = 'The correlation of the waveforms';
      if (why.confirm) return `${start} peaks there too, polarity ${why.polarity}.`;
      return `${start} peaks ${signedMsText(why.apartMs)} from there, polarity ${why.polarity}: that can be a later swing, so it doesn’t count here.`;
    }
    case 'reason':
      return reasonText(why.reason);
    case 'counted-for-the-sum': {
      const count = `${hitsText(why.hits)} ${ofWhich(why.which)} ${why.hits === 1 ? 'counts' : 'count'}`;
      return `${count} for the sum only: no first push in them to compare, and no delay.`;
    }
    case 'in-the-running':
      return `It takes ${why.needed} hits ${ofWhich(why.which)} that agree; so far there ${why.hits === 1 ? 'is' : 'are'} ${why.hits}.`;
    case 'agree-with-each-other':
      return `${agreeingText(why.agreeing, ` ${ofWhich(why.which)}`)} agree with each other.`;
    case 'push-and-shape-disagree':
      return 'First push and waveforms are each sure, so neither counts.';
    case 'agreement-is-no-proof':
      return 'Noise over a soft first push shifts every hit alike, so their agreement proves nothing.';
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
