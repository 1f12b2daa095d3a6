/** Why a reading says what it says, for a teacher and for an expert: how the answer came about, what became of each hit. */

import { cmPerSample } from '../../reading/acoustics';
import type { HitFate, Method, ReadingReason } from '../../reading/codes';
import type { HitPicture } from '../../reading/hitPictures';
import { POOL_HITS, QUIET_DBFS, WITNESS_SECONDS } from '../../reading/limits';
import {
  answerOf,
  type HitReading,
  type MeasuredAnswer,
  type Polarity,
  type Reading,
  type Said,
} from '../../reading/reading';
import { hitsText } from '../../text/count';
import { laterText, spanText } from '../../text/length';
import { signedMsText } from '../../text/time';
import type { AdviceContext } from '../advice';
import { whichDrum } from './drumWords';
import { fateHere, lowEndOnly } from './fate';
import { agreeingText, reasonSentence } from './reasonWords';

const WITNESS_MS = WITNESS_SECONDS * 1000;

const LANDMARK: Readonly<Record<Method, string>> = {
  'first-arrival': 'Decided by the first push: where it begins in each microphone, and which way it goes.',
  waveform: 'Decided by the shape of the whole attack, because first pushes can’t be picked cleanly here.',
  'low-band':
    'Decided by the first push of the low end, because above it the two microphones don’t show this drum alone.',
};

/** How the answer came about, or why there is none: three to six short sentences. */
export function whySentences(reading: Reading, context: AdviceContext): string[] {
  const answer = answerOf(reading);
  const said = answer.state === 'measured' ? whyMeasured(reading, answer, context) : whyNot(reading, answer, context);
  const left = leftOut(reading);
  return left === '' ? said : [...said, left];
}

function whyMeasured(reading: Reading, answer: MeasuredAnswer, { temperatureC }: AdviceContext): string[] {
  const { method, delaySamples, polarity, spreadSamples, uncertaintySamples } = answer;
  const { sampleRate } = reading;
  const list: string[] = [];
  if (method !== null) list.push(LANDMARK[method]);
  const where = laterText(delaySamples * cmPerSample(sampleRate, temperatureC));
  const ms = signedMsText((delaySamples / sampleRate) * 1000);
  list.push(`${agreeingText(answer, ' of this drum')} agree: polarity ${polarity}, ${where} (${ms}).`);
  const cm = (samples: number): string => spanText(samples * cmPerSample(sampleRate, temperatureC));
  if (spreadSamples !== null) list.push(`From hit to hit it repeats within ±${cm(spreadSamples)}.`);
  list.push(
    uncertaintySamples === null
      ? 'How true it is isn’t known: the best fit of the attacks doesn’t confirm it.'
      : `It is true to about ±${cm(uncertaintySamples)} (90 %): that holds the scatter, how far the first push and the best fit of the attacks lie apart, and what unlike microphones can hide.`,
  );
  const witness = curveText(reading, answer);
  if (witness !== '') list.push(witness);
  return list;
}

/** Where the correlation of the waveforms has its peak, beside the answer. */
function curveText({ curve, sampleRate }: Reading, { delaySamples, polarity }: MeasuredAnswer): string {
  if (curve.hits === 0) return '';
  let top = 0;
  for (let i = 1; i < curve.values.length; i++) {
    if (Math.abs(curve.values[i] as number) > Math.abs(curve.values[top] as number)) top = i;
  }
  const lag = (top - (curve.values.length - 1) / 2) * curve.stepSamples;
  const sign: Polarity = (curve.values[top] as number) < 0 ? 'inverted' : 'same';
  const apartMs = ((lag - delaySamples) / sampleRate) * 1000;
  const way = `polarity ${sign}`;
  const start = 'Another witness, the correlation of the waveforms,';
  if (Math.abs(apartMs) <= WITNESS_MS && sign === polarity) return `${start} peaks there too, with ${way}.`;
  return `${start} peaks ${signedMsText(apartMs)} from there with ${way}: it can sit on a later swing, so it doesn’t count here.`;
}

function whyNot(reading: Reading, said: Said, context: AdviceContext): string[] {
  const { state, reason, hitsPooled, hitsUsed, agreement } = said;
  const { hitsNeeded } = reading;
  const list = [reasonSentence(reading, context.ended)];
  if (state === 'no-signal' || state === 'same-signal') return list;
  const ofWhich = whichDrum(reading) === '' ? 'of one drum' : `of this drum (${whichDrum(reading)})`;
  if (lowEndOnly(said) !== null) {
    // what the engine laid together there are no arrivals: nothing can agree on one
    const count = `${hitsText(hitsUsed)} ${ofWhich} ${hitsUsed === 1 ? 'counts' : 'count'} for the sum only`;
    list.push(`${count}: none has a delay or a first push to agree on.`);
  } else if (hitsPooled < hitsNeeded) {
    list.push(`An answer needs ${hitsNeeded} hits ${ofWhich} that agree; ${hitsPooled} are in the running.`);
  } else if (agreement !== null) {
    list.push(`${agreeingText(said, ` ${ofWhich}`)} agree with each other.`);
  }
  if (reason === 'witnesses-disagree') {
    list.push('Two witnesses are sure of different things, so neither is believed.');
  }
  if (reason === 'arrival-hidden') {
    list.push('Noise that hides a soft first push shifts every hit alike: that they agree is no proof.');
  }
  if (state === 'following') list.push('While it moves, only the newest hits count.');
  return list;
}

/** "Left out: 12 of another drum, 2 clipped." */
function leftOut(reading: Reading): string {
  const counts = new Map<LeftOut, number>();
  for (const hit of reading.perHit) {
    const fate = fateHere(hit, reading);
    if (fate !== 'used' && fate !== 'pending') counts.set(fate, (counts.get(fate) ?? 0) + 1);
  }
  const parts = [...counts]
    .sort((x, y) => y[1] - x[1])
    .map(([fate, n]) => `${n} ${n === 1 ? (LEFT_OUT_ONE[fate] ?? LEFT_OUT[fate]) : LEFT_OUT[fate]}`);
  if (parts.length === 0) return '';
  const of = reading.perHit.length < reading.hits ? ` of the newest ${reading.perHit.length}` : '';
  return `Left out${of}: ${parts.join(', ')}.`;
}

type LeftOut = Exclude<HitFate, 'used' | 'pending'>;
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

const isQuiet = (levelDbfs: number | null): boolean => levelDbfs !== null && levelDbfs < QUIET_DBFS;

/** The picture with no first push where none can be read. */
export function honestPicture(picture: HitPicture, said: { reason: ReadingReason }): HitPicture {
  const dull = lowEndOnly(said);
  return dull === null ? picture : { ...picture, [dull]: { ...picture[dull], arrival: null } };
}

/** What became of a hit, in words: "used", "clipped in A", "disagrees: +0.31 ms"; the picture, where there is one, says more. */
export function fateText(hit: HitReading, reading: Reading, picture: HitPicture | null): string {
  const where = (a: boolean | undefined, b: boolean | undefined): string =>
    a && b ? ' in A and B' : a ? ' in A' : b ? ' in B' : '';
  const said = answerOf(reading);
  switch (fateHere(hit, reading)) {
    case 'used':
      if (lowEndOnly(said) !== null) return 'used for the sum only';
      return said.delaySamples === null ? 'agrees so far' : 'used';
    case 'pending':
      return 'being read';
    case 'other-drum':
      return hit.drum === null ? 'another drum' : `another drum (${hit.drum})`;
    case 'clipped':
      return `clipped${where(picture?.a.clipped, picture?.b.clipped)}`;
    case 'no-arrival': {
      const quiet = where(isQuiet(hit.levelADbfs), isQuiet(hit.levelBDbfs));
      if (quiet !== '') return `quiet${quiet}`;
      const noisy = where(picture?.a.noiseBound, picture?.b.noiseBound);
      return noisy === '' ? 'no clear first push' : `arrival hidden in noise${noisy}`;
    }
    case 'one-side-only':
      return picture?.only ? `only ${picture.only.toUpperCase()} heard it` : 'one microphone only';
    case 'two-drums':
      return 'two drums at once';
    case 'too-soon':
      return 'too close to the last';
    case 'old': {
      const after = reading.perHit.filter((other) => other.serial > hit.serial && other.drum === hit.drum).length;
      return after >= POOL_HITS ? 'too long ago' : 'before the move';
    }
    case 'disagrees': {
      if (hit.delaySamples === null) return 'disagrees';
      if (said.polarity !== null && hit.polarity !== said.polarity) return 'disagrees: other polarity';
      if (said.delaySamples === null) return 'disagrees';
      const byMs = ((hit.delaySamples - said.delaySamples) / reading.sampleRate) * 1000;
      return `disagrees: ${signedMsText(byMs)}`;
    }
  }
}
