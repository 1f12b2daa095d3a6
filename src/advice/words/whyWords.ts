/** Why a reading says what it says, for a teacher and for an expert: how the answer came about. */
import type { Method } from '../../reading/codes';
import type { Reading } from '../../reading/reading';
import { hitsText } from '../../text/count';
import { pathText, spanText } from '../../text/length';
import { signedMsText } from '../../text/time';
import type { AdviceContext } from '../advice';
import type { WhichDrum } from '../plan/drums';
import { type LeftOut, type Why, type WhyContext, whyOf } from '../plan/whyFacts';
import { whichDrumText } from './drumWords';
import { agreeingText, reasonText } from './reasonWords';

/** How the answer came about, or why there is none: three to six short sentences. */
export function whySentences(reading: Reading, context: AdviceContext & Pick<WhyContext, 'moveCm'>): string[] {
  return whyOf(reading, context).map(sayWhy);
}

const DECIDED_BY: Readonly<Record<Method, string>> = {
  'first-arrival': 'Taken from the first push: when it reaches each mic, and which way it goes.',
  waveform: 'Taken from the whole attack: there’s no clean first push to go by.',
  'low-band': 'Taken from the first push in the lows: higher up there’s too much bleed.',
  likeliest: 'Taken from the hits that show it: in the others something else comes first.',
};

function sayWhy(why: Why): string {
  switch (why.code) {
    case 'decided-by':
      return DECIDED_BY[why.method];
    case 'agreed': {
      const where = `${pathText(why.pathCm)} (${signedMsText(why.delayMs)})`;
      return `${agreeingText(why.agreeing, ' on this drum')} agree: polarity ${why.polarity}, ${where}.`;
    }
    case 'repeats-within':
      return `Hit-to-hit spread: ±${spanText(why.cm)}.`;
    case 'true-to':
      return why.cm === null
        ? 'Accuracy unknown: lining up the whole attack gives a different delay.'
        : `Accurate to ±${spanText(why.cm)} (90 %). That covers the spread of the hits, how far first push and whole attack differ, and differences between the mics.`;
    case 'waveforms':
      return waveformsText(why);
    case 'reason':
      return reasonText(why.reason);
    case 'counted-for-the-sum': {
      const count = `${hitsText(why.hits)} ${onWhich(why.which)} ${why.hits === 1 ? 'counts' : 'count'}`;
      return `${count} for the sum only: no first push to compare, so no delay.`;
    }
    case 'in-the-running':
      return `It takes ${why.needed} matching hits ${onWhich(why.which)}; ${why.hits} so far.`;
    case 'agree-with-each-other':
      return `${agreeingText(why.agreeing, ` ${onWhich(why.which)}`)} agree with each other.`;
    case 'push-and-shape-disagree':
      return 'The first push and the whole attack are each certain and don’t agree, so neither is used.';
    case 'agreement-is-no-proof':
      return 'Noise on a soft first push shifts every hit the same way, so hits that agree prove nothing.';
    case 'newest-only':
      return 'Only the newest hits count: the others are from before the move.';
    case 'left-out':
      return leftOutText(why.counts, why.ofNewest);
  }
}

/** Where the whole attack fits best, beside the first push. */
export function waveformsText({ confirm, apartMs, polarity }: Extract<Why, { code: 'waveforms' }>): string {
  const start = 'The waveforms line up best';
  if (confirm) return `${start} there too, polarity ${polarity}.`;
  return `${start} ${signedMsText(apartMs)} from there, polarity ${polarity}: possibly a cycle off, so it doesn’t count.`;
}

const onWhich = (which: WhichDrum | null): string =>
  which === null ? 'on one drum' : `on this drum (${whichDrumText(which)})`;

/** "Left out: 12 on another drum, 2 clipped." */
function leftOutText(counts: [LeftOut, number][], ofNewest: number | null): string {
  const parts = counts.map(([fate, n]) => `${n} ${n === 1 ? (LEFT_OUT_ONE[fate] ?? LEFT_OUT[fate]) : LEFT_OUT[fate]}`);
  return `Left out${ofNewest === null ? '' : ` of the newest ${ofNewest}`}: ${parts.join(', ')}.`;
}

const LEFT_OUT: Readonly<Record<LeftOut, string>> = {
  'no-arrival': 'without a clear first push',
  disagrees: 'that disagree',
  'other-drum': 'on another drum',
  clipped: 'clipped',
  'one-side-only': 'heard by one mic only',
  old: 'that no longer count',
  'two-drums': 'on two drums at once',
  'too-soon': 'too soon after the one before',
  'dropped-audio': 'where audio was dropped',
};

const LEFT_OUT_ONE: Readonly<Partial<Record<LeftOut, string>>> = {
  disagrees: 'that disagrees',
  old: 'that no longer counts',
};
