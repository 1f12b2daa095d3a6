/** How an answer came about, or why there is none: what is to be said of it, in codes and numbers. */
import { cmPerSample } from '../../reading/acoustics';
import type { HitFate, Method } from '../../reading/codes';
import { WITNESS_SECONDS } from '../../reading/limits';
import { answerOf, type MeasuredAnswer, type Polarity, type Reading, type Said } from '../../reading/reading';
import { type WhichDrum, whichShown } from './drums';
import { delaySaidMs, gapOf, pathShownCm } from './gap';
import { fateHere } from './hitFates';
import type { PlanContext } from './planTypes';
import { type Agreeing, agreeingOf, type EndedReason, lowEndOnly, type Reason, reasonNow, statedOf } from './reasons';

export type LeftOut = Exclude<HitFate, 'used' | 'pending'>;

export type WhyContext = Pick<PlanContext, 'temperatureC' | 'ended'> & { moveCm?: number | null };

export type Why =
  | { code: 'decided-by'; method: Method }
  /** delayMs, pathCm: positive: B hears the drum later */
  | { code: 'agreed'; agreeing: Agreeing; polarity: Polarity; pathCm: number; delayMs: number }
  | { code: 'repeats-within'; cm: number }
  /** 90 %; null: not known */
  | { code: 'true-to'; cm: number | null }
  /** the peak of the waveforms' correlation, and whether it confirms the answer */
  | { code: 'waveforms'; confirm: boolean; apartMs: number; polarity: Polarity }
  | { code: 'reason'; reason: Reason | EndedReason }
  | { code: 'counted-for-the-sum'; hits: number; which: WhichDrum | null }
  | { code: 'in-the-running'; hits: number; needed: number; which: WhichDrum | null }
  | { code: 'agree-with-each-other'; agreeing: Agreeing; which: WhichDrum | null }
  | { code: 'push-and-shape-disagree' | 'agreement-is-no-proof' | 'newest-only' }
  /** by fate, most first; of so many newest hits, null: of all */
  | { code: 'left-out'; counts: [fate: LeftOut, hits: number][]; ofNewest: number | null };

/** @param context moveCm: what is advised beside it, which says the path; null or left out: nothing */
export function whyOf(reading: Reading, context: WhyContext): Why[] {
  const answer = answerOf(reading);
  const said = answer.state === 'measured' ? whyMeasured(reading, answer, context) : whyNot(reading, answer, context);
  return [...said, ...leftOut(reading)];
}

function whyMeasured(reading: Reading, answer: MeasuredAnswer, context: WhyContext): Why[] {
  const { method, polarity, spreadSamples, uncertaintySamples } = answer;
  const { sampleRate } = reading;
  const { temperatureC, moveCm = null } = context;
  const cm = (samples: number): number => samples * cmPerSample(sampleRate, temperatureC);
  const list: Why[] = [];
  if (method !== null) list.push({ code: 'decided-by', method });
  const gap = gapOf(answer, sampleRate, temperatureC);
  if (gap !== null) {
    const [pathCm, delayMs] = [pathShownCm(gap, moveCm), delaySaidMs(gap)];
    list.push({ code: 'agreed', agreeing: agreeingOf(answer), polarity, pathCm, delayMs });
  }
  if (spreadSamples !== null) list.push({ code: 'repeats-within', cm: cm(spreadSamples) });
  list.push({ code: 'true-to', cm: uncertaintySamples === null ? null : cm(uncertaintySamples) });
  const witness = waveformsOf(reading, answer);
  return witness === null ? list : [...list, witness];
}

/** Where the correlation of the waveforms has its peak, beside the answer; null: there is none. */
export function waveformsOf(
  { curve, sampleRate }: Reading,
  { delaySamples, polarity }: MeasuredAnswer,
): Extract<Why, { code: 'waveforms' }> | null {
  if (curve.hits === 0) return null;
  let top = 0;
  for (let i = 1; i < curve.values.length; i++) {
    if (Math.abs(curve.values[i] as number) > Math.abs(curve.values[top] as number)) top = i;
  }
  const lag = (top - (curve.values.length - 1) / 2) * curve.stepSamples;
  const sign: Polarity = (curve.values[top] as number) < 0 ? 'inverted' : 'same';
  const apartMs = ((lag - delaySamples) / sampleRate) * 1000;
  const confirm = Math.abs(apartMs) <= WITNESS_SECONDS * 1000 && sign === polarity;
  return { code: 'waveforms', confirm, apartMs, polarity: sign };
}

function whyNot(reading: Reading, said: Said, context: WhyContext): Why[] {
  const { state, reason, hitsPooled, hitsUsed, agreement } = said;
  const { hitsNeeded: needed } = reading;
  const list: Why[] = [{ code: 'reason', reason: reasonNow(statedOf(reading), context.ended ?? false) }];
  if (state === 'no-signal' || state === 'same-signal' || reason === 'which-drum') return list;
  const which = whichShown(reading);
  if (lowEndOnly(said) !== null) {
    // what the engine laid together there are no arrivals: nothing can agree on one
    list.push({ code: 'counted-for-the-sum', hits: hitsUsed, which });
  } else if (hitsPooled < needed) {
    list.push({ code: 'in-the-running', hits: hitsPooled, needed, which });
  } else if (agreement !== null) {
    list.push({ code: 'agree-with-each-other', agreeing: agreeingOf(said), which });
  }
  if (reason === 'push-and-shape-disagree') list.push({ code: 'push-and-shape-disagree' });
  if (reason === 'arrival-hidden') list.push({ code: 'agreement-is-no-proof' });
  if (state === 'following') list.push({ code: 'newest-only' });
  return list;
}

function leftOut(reading: Reading): Why[] {
  const counts = new Map<LeftOut, number>();
  for (const hit of reading.perHit) {
    const fate = fateHere(hit, reading);
    if (fate !== 'used' && fate !== 'pending') counts.set(fate, (counts.get(fate) ?? 0) + 1);
  }
  if (counts.size === 0) return [];
  const kept = reading.perHit.length;
  return [
    {
      code: 'left-out',
      counts: [...counts].sort((x, y) => y[1] - x[1]),
      ofNewest: kept < reading.hits ? kept : null,
    },
  ];
}
