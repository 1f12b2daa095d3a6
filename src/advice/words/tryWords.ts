/** What is tried by hand, and what it gains, in words: nobody is told to do it. */
import { POWER_SUM_DB } from '../../reading/acoustics';
import { notedCmText } from '../../text/length';
import { gainFigure, gainText } from '../../text/level';
import { atMost, NO_VALUE, signed } from '../../text/number';
import { capital } from '../../text/sentence';
import { msText } from '../../text/time';
import type { AdviceContext } from '../advice';
import type { Action } from '../plan/alternatives';
import type { Fullest, Spot, Spots } from '../tryOut/moveCurve';
import type { Tried } from '../tryOut/tried';
import { DEEP_DB, type TriedLevel, type TriedSums } from '../tryOut/tryOut';
import { micName } from './wording';

type Named = Pick<AdviceContext, 'aLabel' | 'bLabel'>;

/** What no arithmetic can know of a move. */
export const REAL_MOVE =
  'A real move also changes what the mic hears of the drum: angle, distance, room. Measure again after it.';

/** "2.4 cm closer", "11 cm back", "not moved" */
export function movedText(moveCm: number): string {
  const size = notedCmText(moveCm);
  return size === '0 cm' ? 'not moved' : `${size} ${moveCm > 0 ? 'closer' : 'back'}`;
}

const isNothing = ({ invertB, delayMs, moveCm, trimDb }: Tried): boolean =>
  !invertB && delayMs === null && !moveCm && trimDb === 0;

/** "Invert B, 2.4 cm closer" · "B 11 cm back, +3 dB" · "Delay A by 1.2 ms in the mix" · "As it is now" */
export function triedText(tried: Tried, context: Named): string {
  if (isNothing(tried)) return 'As it is now';
  const b = micName('B', context);
  const { invertB, delayMs, moveCm, trimDb } = tried;
  const parts: string[] = [];
  if (invertB) parts.push(`invert ${b}`);
  if (moveCm) parts.push(`${invertB ? '' : `${b} `}${movedText(moveCm)}`);
  if (delayMs !== null)
    parts.push(`delay ${micName(delayMs > 0 ? 'A' : 'B', context)} by ${msText(delayMs)} in the mix`);
  if (trimDb !== 0) parts.push(`${parts.length > 0 ? '' : `${b} `}${signed(trimDb, trimDb % 1 === 0 ? 0 : 1)} dB`);
  return capital(parts.join(', '));
}

const NO_LEVEL = { 'not-carried': 'not known', 'out-of-reach': 'beyond what the hits tell' } as const;

function gainedText({ gainDb, triedDeep, why }: TriedLevel): string {
  if (why !== null) return NO_LEVEL[why];
  return triedDeep ? 'nearly cancels' : gainText(gainDb as number);
}

/** "low octave +3 dB, overall +2 dB"; a gain to half a dB, as the plan has it */
export const gainedByText = ({ low, all }: TriedSums): string =>
  `low octave ${gainedText(low)}, overall ${gainedText(all)}`;

/** The whole of it: "Invert B, 2.4 cm closer: low octave +3 dB, overall +2 dB" */
export function tryText(tried: Tried, sums: TriedSums, context: Named): string {
  const what = triedText(tried, context);
  return isNothing(tried) ? `${what}. Move the slider or press an option` : `${what}: ${gainedByText(sums)}`;
}

/** re one microphone alone, as beside the sum's plot */
const alone = (db: number): number => db + POWER_SUM_DB;

/** "+3.4", "−1.2": A+B re one microphone alone as measured, dB */
export const nowColumn = ({ nowDb }: TriedLevel): string => (nowDb === null ? NO_VALUE : signed(alone(nowDb), 1));

/** The same as tried; where that nearly cancels: "under −7" */
export function triedColumn({ triedDb, triedDeep }: TriedLevel): string {
  if (triedDb === null) return NO_VALUE;
  return triedDeep ? `under ${atMost(Math.round(alone(DEEP_DB)), 0)}` : signed(alone(triedDb), 1);
}

/** "+3.5", "−9 or less" */
export function gainColumn({ gainDb, nowDb, triedDeep }: TriedLevel): string {
  if (gainDb === null) return NO_VALUE;
  if (!triedDeep) return gainFigure(gainDb);
  return nowDb === null || nowDb < DEEP_DB ? NO_VALUE : `${gainFigure(DEEP_DB - nowDb)} or less`;
}

/** Why bands have no figure; empty: all have. */
export function noLevelText({ low, all, bands }: TriedSums): string {
  const reasons = new Set([low, all, ...bands].map(({ why }) => why));
  const parts: string[] = [];
  if (reasons.has('not-carried')) parts.push('the whole band differs too much, or has too little sound');
  if (reasons.has('out-of-reach')) parts.push('so far away the hits don’t tell');
  return parts.length === 0 ? '' : `${NO_VALUE}: ${parts.join('; ')}.`;
}

/** "Invert B, 8.1 cm closer", of a spot; "Leave it" where that is now */
export function spotText({ invertB, moveCm }: Spot, context: Named): string {
  const action: Action = { invertB, moveCm: moveCm === 0 ? null : moveCm, delayMs: null };
  return triedText({ ...action, trimDb: 0 }, context);
}

export const NO_ALIGNED = {
  'no-arrival': 'not known: no delay holds',
  'too-far': 'more than 60 cm away',
} as const satisfies Record<NonNullable<Spots['noAligned']>, string>;

/** "as full: …" is left to the curve: the fuller of the two polarities alone */
export const fullestText = ({ best }: Fullest, context: Named): string =>
  best === null ? 'not known: the hits differ' : spotText(best, context);
