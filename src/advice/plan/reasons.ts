/** Why a reading says what it says, and how many of its hits agree: codes and numbers. */
import type { ReadingReason, ReadingState } from '../../reading/codes';
import { answerOf, type HitCounts, type Reading, type Said } from '../../reading/reading';

/** What is needed of a reading, or of one of its drums, to tell why. */
export type Stated = Pick<Said, 'state' | 'reason' | keyof HitCounts> & Pick<Reading, 'hitsNeeded'>;

/** What the reading says, to tell why. */
export const statedOf = (reading: Reading): Stated => ({ ...answerOf(reading), hitsNeeded: reading.hitsNeeded });

/** Hits that agree, of the hits in the running. */
export interface Agreeing {
  agree: number;
  of: number;
  /** more were heard of the drum than are in the running */
  moreHeard: boolean;
}

/** While hits may still come. */
export type Reason =
  | { code: Exclude<ReadingReason, 'agreed' | 'too-few-hits'> }
  | ({ code: 'agreed' } & Agreeing)
  | { code: 'no-usable-hit' | 'too-few-agree' }
  | { code: 'too-few-hits'; hits: number; needed: number };

/** A recording is over before there was enough for a reading. `needed`: hits of one drum that an answer needs. */
export type EndedReason = { ended: true } & (
  | { code: 'still-moving' }
  | { code: 'no-hit' | 'moved' | 'no-usable-hit'; needed: number }
  | { code: 'too-few-hits'; hits: number; needed: number }
  | { code: 'too-few-agree'; hits: number }
);

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

/** The reason where it belongs to the state, else the one that stands in for it. */
function reasonCode({ state, reason }: Stated): ReadingReason {
  const list = REASONS_OF[state];
  if (list) return list.includes(reason) ? reason : (list[0] as ReadingReason);
  return reason === 'agreed' ? (STAND_IN[state] ?? 'hits-disagree') : reason;
}

export function agreeingOf({ hits, hitsPooled, hitsUsed, agreement }: HitCounts): Agreeing {
  const of = Math.max(hitsPooled, hitsUsed);
  const agree = agreement === null ? hitsUsed : Math.round(agreement * of);
  return { agree, of, moreHeard: hits > of };
}

export function reasonOf(stated: Stated): Reason {
  const code = reasonCode(stated);
  if (code === 'agreed') return { code, ...agreeingOf(stated) };
  if (code !== 'too-few-hits') return { code };
  const { hitsPooled: hits, hitsNeeded: needed } = stated;
  if (hits === 0) return { code: 'no-usable-hit' };
  return hits < needed ? { code, hits, needed } : { code: 'too-few-agree' };
}

/** The recording is over, and too little was in it; null: the reason isn't a matter of time. */
export function endedReasonOf(stated: Stated): EndedReason | null {
  const { hitsPooled: hits, hitsNeeded: needed, state } = stated;
  const code = reasonCode(stated);
  const ended = true;
  if (state === 'following' || code === 'moving') return { ended, code: 'still-moving' };
  if (code === 'nothing-yet') return { ended, code: 'no-hit', needed };
  if (code === 'moved') return { ended, code: 'moved', needed };
  if (code !== 'too-few-hits') return null;
  if (hits === 0) return { ended, code: 'no-usable-hit', needed };
  return hits < needed ? { ended, code: 'too-few-hits', hits, needed } : { ended, code: 'too-few-agree', hits };
}

/** @param ended the recording is over: nobody strikes any more */
export function reasonNow(stated: Stated, ended: boolean): Reason | EndedReason {
  return (ended ? endedReasonOf(stated) : null) ?? reasonOf(stated);
}

/** The channel that hears the low end only, where no arrival can be read; null: neither. */
export const lowEndOnly = ({ reason }: { reason: ReadingReason }): 'a' | 'b' | null =>
  reason === 'lows-only-a' ? 'a' : reason === 'lows-only-b' ? 'b' : null;
