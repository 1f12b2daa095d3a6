/**
 * What a plan says, in codes and numbers: nothing here is read by a person. words/ makes sentences of it.
 * Moves are for B, cm, positive towards the drum; delays ms, positive: A is delayed; paths cm, positive: B hears the drum later.
 */
import type { Polarity } from '../../reading/reading';
import type { WhichDrum } from './drums';
import type { Gap } from './gap';
import type { PairKindId } from './pairKinds';
import type { Agreeing, EndedReason, Reason } from './reasons';
import type { SumVote } from './votes';

export type AdviceAction =
  | 'leave'
  | 'invert'
  | 'move'
  | 'invert-and-move'
  | 'delay-later'
  | 'hit-more'
  | 'cannot-tell'
  | 'fix-input';

/** What is known of the pair beside its reading. */
export interface PlanContext {
  kind: PairKindId;
  temperatureC: number;
  /** polarity of B as set by the meter's own invert: the reading already includes it */
  invertB: boolean;
  /** one of the two polarity switches is pressed, and not both, as somebody knows; left out: nobody does */
  switched?: boolean | undefined;
  /** the recording is over and no hit can follow: too few hits are said as a fact, not as a request; false when left out */
  ended?: boolean | undefined;
}

/** B's polarity, from what the meter shows now. */
export type FromShown = SumVote['prefers'];

/** What can be done about the pair, all of it together. */
export interface Alternative {
  /** B is turned over from what the meter shows */
  flip: boolean;
  /** B's real polarity switch is pressed: with the meter's own invert on, that is the other way round */
  press: boolean;
  /** null: none */
  moveCm: number | null;
  /** what brings the attacks together in the mix, if wanted */
  delayLater: DelayLater | null;
}

export interface DelayLater {
  delayMs: number;
  /** the path, as it is told beside the delay */
  pathCm: number;
  /** the polarity that belongs to the delay, where it isn't the one that is recommended until then */
  listen: FromShown | null;
  /** how the drum's own low octave should then be fuller, where that isn't the arrival's polarity */
  sumPrefers: FromShown | null;
}

/** How well the distance is known, where neither a move nor a delay is advised. */
export type Distance =
  | { code: 'equal'; withinCm: number }
  /** null: not known how well */
  | { code: 'uncertain'; knownCm: number | null }
  /** beyond the tolerance, and too little known for a move */
  | { code: 'too-uncertain-to-move'; pathCm: number; knownCm: number | null; repeatsCm: number };

/** The sum, as things stand, says the opposite of the first push; what becomes of that, as far as can be told. */
export type Conflict = { vote: SumVote } & (
  | { code: 'sum-decides' | 'no-move' | 'unknown-after-move' }
  | { code: 'stays-after-move' | 'changes-after-move'; after: SumVote }
);

export type Sureness =
  /** 90 % in `trueToCm`; null where it isn't known */
  | { code: 'agreed'; agreeing: Agreeing; withinCm: number | null; trueToCm: number | null; which: WhichDrum | null }
  | { code: 'provisional'; which: WhichDrum | null }
  | { code: 'hit-more'; reason: Reason | EndedReason; which: WhichDrum | null }
  | { code: 'cannot-tell' | 'no-reading'; reason: Reason; which: WhichDrum | null };

/** What stands beside an answer: whatever contradicts it, is unusual, or limits it. */
export type Note =
  | { code: 'arrival-and-sum-disagree'; polarity: Polarity; conflict: Conflict }
  | { code: 'sum-opposite-after-move'; prefers: FromShown }
  | { code: 'another-band-opposite'; lowHz: number; highHz: number; db: number; prefers: FromShown }
  | { code: 'unusual-polarity'; switchKnown: boolean }
  | { code: 'drum-in-the-gap'; pathCm: number }
  | { code: 'invert-both-of-a-pair' | 'equal-for-one-drum' }
  /** paths of another drum, if B moves as much along its line too */
  | { code: 'other-drum-changes'; drum: number; moveCm: number; nowCm: number; thenCm: number }
  | { code: 'what-was-read'; pathCm: number; polarity: Polarity }
  | { code: 'sum-of-now' }
  | { code: 'octave-even'; lowHz: number; highHz: number };

export type Caution = 'stop-drummer' | 'move-warning' | 'phantom' | 'house-rules';

interface Beside {
  action: AdviceAction;
  sureness: Sureness;
  notes: Note[];
  cautions: Caution[];
}

interface ArrivalPlan extends Beside {
  gap: Gap;
  /** later: one of several, each with what it gains */
  recommended: Alternative;
  /** nothing is to be done, and nothing contradicts that */
  fine: boolean;
  conflict: Conflict | null;
}

/** Two that can be brought together: the arrival decides. */
export interface TogetherPlan extends ArrivalPlan {
  type: 'together';
  /** null: a move says it */
  distance: Distance | null;
  /** the drum that the move is for, where the two hear several; null: it needn't be told */
  forDrum: number | null;
}

/** Two that can't: the sum decides, the arrival where the sum is silent. */
export interface ApartPlan extends ArrivalPlan {
  type: 'apart';
  because: { code: 'sum'; vote: SumVote } | { code: 'octave-even'; lowHz: number; highHz: number } | { code: 'no-sum' };
  /** null: a delay says it */
  distance: Distance | null;
}

/** A gap that such a pair hardly has: is it the right pair? Nothing is advised. */
export interface FarPlan extends Beside {
  type: 'far';
  gap: Gap;
  /** as it is told */
  pathCm: number;
}

/** A microphone on the move: how far still to go, as a help for the hand and not as a reading. */
export interface FollowingPlan extends Beside {
  type: 'following';
  reason: Reason;
  toGo: { code: 'move'; moveCm: number } | { code: 'stop'; withinCm: number } | { code: 'not-known' };
}

export interface HitMorePlan extends Beside {
  type: 'hit-more';
  reason: Reason | EndedReason;
}

/** No arrival. The sum may answer all the same. */
export interface NoArrivalPlan extends Beside {
  type: 'no-arrival';
  reason: Reason;
  /** more hits won't help */
  hopeless: boolean;
  vote: SumVote | null;
}

export interface FixInputPlan extends Beside {
  type: 'fix-input';
  reason: Reason;
  /** turning a gain down is all it takes */
  overloaded: boolean;
}

export type Plan = TogetherPlan | ApartPlan | FarPlan | FollowingPlan | HitMorePlan | NoArrivalPlan | FixInputPlan;

/** What is to be done, in figures. */
export interface PlanFigures {
  action: AdviceAction;
  moveCm: number | null;
  delayLaterMs: number | null;
}

export function figuresOf(plan: Plan): PlanFigures {
  const { action } = plan;
  if (plan.type !== 'together' && plan.type !== 'apart') return { action, moveCm: null, delayLaterMs: null };
  const { moveCm, delayLater } = plan.recommended;
  return { action, moveCm, delayLaterMs: delayLater?.delayMs ?? null };
}
