/** The figures of an answer, rounded as the advice rounds them: the card, the numbers and the plots say one thing. */
import type { Advice } from '../../advice/advice';
import { delaySaidMs, type Gap, gapOf, knownCm, pathSaidCm, pathShownCm } from '../../advice/plan/gap';
import { type PairKindId, pairKind } from '../../advice/plan/pairKinds';
import { type Names, usedText } from '../../advice/words/drumWords';
import { answerOf, type Reading, type Said } from '../../reading/reading';
import { roundDelayMs } from '../../reading/rounding';
import { hitsText } from '../../text/count';
import { cmText, type MicNames, pathText, spanText } from '../../text/length';
import { NO_VALUE } from '../../text/number';
import { signedMsText } from '../../text/time';

export interface Figures {
  /** "B 2.5 cm farther" */
  path: string;
  /** where the side shows itself: "B 2.5 cm" */
  size: string;
  /** "+0.07 ms" */
  delay: string;
  /** "±1.2 cm", 90 % */
  accuracy: string;
  /** "±2 mm", hit to hit */
  repeats: string;
}

/** What is advised, as far as the figures have to agree with it. */
type Planned = Pick<Advice, 'moveCm' | 'delayLaterMs'>;

/** delays that differ by less are told as one, ms */
const SAME_MS = 0.02;

const NONE: Figures = { path: NO_VALUE, size: NO_VALUE, delay: NO_VALUE, accuracy: NO_VALUE, repeats: NO_VALUE };

/** @param planned what is advised beside them; null: nothing */
export function figuresOf(
  answer: Said | null,
  sampleRate: number,
  temperatureC: number,
  planned: Planned | null,
  names?: MicNames,
): Figures {
  const gap =
    answer === null ? null : gapOf({ ...answer, polarity: answer.polarity ?? 'same' }, sampleRate, temperatureC);
  if (answer === null || gap === null) return NONE;
  const within = (cm: number | null): string => (cm === null ? NO_VALUE : `±${spanText(cm)}`);
  const said = pathShownCm(gap, planned?.moveCm ?? null);
  return {
    path: pathText(said, names),
    size: `${names?.b ?? 'B'} ${cmText(said)}`,
    delay: signedMsText(saidMs(gap, said, planned?.delayLaterMs ?? null)),
    accuracy: within(gap.uncertaintyCm),
    repeats: within(answer.spreadSamples === null ? null : gap.repeatsCm),
  };
}

/** The delay that brings the starts together says the delay; where a move says the path, the delay is that of the path. */
function saidMs(gap: Gap, saidPathCm: number, delayLaterMs: number | null): number {
  const accuracy = accuracyMs(gap);
  if (delayLaterMs !== null && Math.abs(delayLaterMs - gap.delayMs) <= Math.max(SAME_MS, accuracy)) return delayLaterMs;
  if (saidPathCm === pathSaidCm(gap) || gap.pathCm === 0) return delaySaidMs(gap);
  return roundDelayMs((saidPathCm * gap.delayMs) / gap.pathCm, 0);
}

function accuracyMs(gap: Gap): number {
  return gap.pathCm === 0 ? 0 : Math.abs(gap.delayMs / gap.pathCm) * (knownCm(gap) ?? gap.repeatsCm);
}

/** Polarity and delay hold, and yet the distance isn't known as well as such a pair needs it: no tick for that. */
export function isRough(answer: Said | null, sampleRate: number, temperatureC: number, kind: PairKindId): boolean {
  if (answer?.state !== 'measured') return false;
  const gap = gapOf(answer, sampleRate, temperatureC);
  const known = gap && knownCm(gap);
  return known === null || known > pairKind(kind).toleranceCm;
}

/**
 * "Used:" "6 of 7 hits". Before there is an answer none is behind it: then those are counted that could be, as the sentence
 * beside it counts them.
 */
export function hitsUsed(reading: Reading | null, names: Names = {}): { label: string; text: string } {
  if (reading === null) return { label: 'Used:', text: '0 hits' };
  const { hits, hitsPooled, hitsUsed: used, reason } = answerOf(reading);
  // each of the listed drums has its own
  if (reason === 'which-drum') return { label: 'Heard:', text: hitsText(hits) };
  if (used > 0 || hits === 0) return { label: 'Used:', text: usedText(reading, names) };
  return { label: 'Usable so far:', text: `${hitsPooled} of ${hitsText(hits)}` };
}
