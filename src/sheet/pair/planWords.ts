/** What is to be done about a pair, whole, and what it gains, in words. */
import type { Action, SumLevels } from '../../advice/plan/alternatives';
import { samplesText, wholeSamples } from '../../text/count';
import { bandText, rateText } from '../../text/frequency';
import { cmText } from '../../text/length';
import { gainText } from '../../text/level';
import { listText } from '../../text/sentence';
import { msText } from '../../text/time';
import type { KitSheet, Pair, Taken } from '../document/model';
import { oneToInvert } from '../document/references';

export interface PlanNames {
  /** ids of the pair's microphones whose polarity is inverted: none, one or both */
  inverted: readonly string[];
  nameOf(id: string): string;
}

/** The pair by itself: B is inverted, unless all the rest goes by B. */
export const byItself = (sheet: KitSheet, pair: Pair, { invertB }: Pick<Action, 'invertB'>): string[] =>
  invertB ? [oneToInvert(sheet, pair)] : [];

/**
 * "invert Snare bottom", "delay Snare top by 2.76 ms (122 samples); leave both polarities", "leave both as they are". A move
 * may stand instead of the delay.
 * @param sheet its rate tells the samples
 */
export function actionText(
  { sampleRate }: Pick<KitSheet, 'sampleRate'>,
  { a, b }: Pick<Pair, 'a' | 'b'>,
  { delayMs, moveCm }: Pick<Action, 'delayMs' | 'moveCm'>,
  { inverted, nameOf }: PlanNames,
): string {
  const own = [a, b].filter((id) => inverted.includes(id));
  const invert = own.length === 0 ? '' : `invert ${listText(own.map(nameOf))}`;
  const then =
    delayMs !== null
      ? `delay ${nameOf(delayMs > 0 ? a : b)} by ${delayText(delayMs, sampleRate)}`
      : moveCm !== null
        ? `move ${nameOf(b)} ${cmText(moveCm)} ${moveCm > 0 ? 'closer to' : 'back from'} the drum`
        : '';
  if (invert && then) return `${invert} and ${then}`;
  // a delay is done in the mix, by somebody who wasn't there
  if (then) return delayMs === null ? then : `${then}; leave both polarities`;
  return invert || 'leave both as they are';
}

/** "2.95 ms (142 samples)" */
export const delayText = (ms: number, sampleRate: number): string =>
  `${msText(ms)} (${samplesText(wholeSamples(ms, sampleRate))})`;

/** "2.95 ms (142 samples at 48 kHz)": where the session's rate, which may be another than the readings', isn't said beside it */
export const delayAtRateText = (ms: number, sampleRate: number): string =>
  `${msText(ms)} (${samplesText(wholeSamples(ms, sampleRate))} at ${rateText(sampleRate)})`;

/** "+5.8 dB in the drum’s low octave (88–177 Hz) and +5.5 dB overall": no comma before a sign, or a spreadsheet might run what follows */
export function gainsText({ lowDb, allDb }: Pick<SumLevels, 'lowDb' | 'allDb'>, taken: Taken): string {
  const octave = `the drum’s low octave${octaveText(taken)}`;
  if (lowDb === null && allDb === null) return 'what A+B gains is unknown';
  const low = lowDb === null ? `unknown in ${octave}` : `${gainText(lowDb)} in ${octave}`;
  return `${low} and ${allDb === null ? 'unknown overall' : `${gainText(allDb)} overall`}`;
}

/** " (177–354 Hz)"; empty where it isn't known */
const octaveText = ({ fullerLowHz, fullerHighHz }: Taken): string =>
  fullerLowHz === null || fullerHighHz === null ? '' : ` (${bandText(fullerLowHz, fullerHighHz)})`;
