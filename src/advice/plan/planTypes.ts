/**
 * What a plan says, in codes and numbers: nothing here is read by a person. words/ makes sentences of it.
 * Moves are for B, cm, positive towards the drum; delays ms, positive: A is delayed; paths cm, positive: B hears the drum later.
 */
import type { Polarity } from '../../reading/reading';
import type { Action, Alternative } from './alternatives';
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
  | 'invert-and-delay'
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
  /** what was recommended before, as the switches stand now, and whether that was fine; left out: nothing */
  standing?: (Action & { fine: boolean }) | null | undefined;
  /** what a person chose instead of what is recommended; left out: nothing */
  chosen?: Action | null | undefined;
  /** the recording is over and no hit can follow: too few hits are said as a fact, not as a request; false when left out */
  ended?: boolean | undefined;
}

/** How well the distance is known, where no move is advised. */
export type Distance =
  | { code: 'equal'; withinCm: number }
  /** null: not known how well */
  | { code: 'uncertain'; knownCm: number | null }
  /** beyond the tolerance, and too little known for a move */
  | { code: 'too-uncertain-to-move'; pathCm: number; knownCm: number | null; repeatsCm: number };

export type Sureness =
  /** 90 % in `trueToCm`; null where it isn't known */
  | { code: 'agreed'; agreeing: Agreeing; withinCm: number | null; trueToCm: number | null; which: WhichDrum | null }
  | { code: 'provisional'; which: WhichDrum | null }
  | { code: 'hit-more'; reason: Reason | EndedReason; which: WhichDrum | null }
  | { code: 'cannot-tell' | 'no-reading'; reason: Reason; which: WhichDrum | null };

/** How the plan goes with a sum of now that is fuller the other way: as that asks; or by a delay or a move, with B's own polarity as told. */
export type SumThen = { code: 'as-the-sum' } | { code: 'in-time'; by: 'delay' | 'move'; invertB: boolean };

/** What stands beside an answer: whatever is unusual, or limits it. None of it is something else to do. */
export type Note =
  /** the first pushes say one thing of the polarity, the sum as things stand another */
  | { code: 'sum-not-as-arrival'; polarity: Polarity; vote: SumVote; so: SumThen | null }
  /** the delay takes the first pushes so far apart */
  | { code: 'pushes-apart'; apartMs: number }
  /** what the plan costs in a band */
  | { code: 'band-loses'; lowHz: number; highHz: number; db: number }
  /** nothing is done, and a band would have liked it */
  | { code: 'band-would-gain'; lowHz: number; highHz: number; db: number }
  | { code: 'no-timing'; reason: Reason; hopeless: boolean }
  /** about the wiring; what is to be done once that is right */
  | { code: 'unusual-polarity'; switchKnown: boolean; todo: Action; flip: boolean }
  | { code: 'drum-in-the-gap'; pathCm: number }
  | { code: 'invert-both-of-a-pair' | 'equal-for-one-drum' | 'move-changes-sound' }
  /** paths of another drum, if B moves as much along its line too */
  | { code: 'other-drum-changes'; drum: number; moveCm: number; nowCm: number; thenCm: number }
  | { code: 'what-was-read'; pathCm: number; polarity: Polarity }
  /** a person chose otherwise */
  | { code: 'recommended-otherwise'; action: Alternative }
  | { code: 'sum-of-now' }
  /** other drums, by their ids, are played now */
  | { code: 'others-played'; drums: number[] }
  /** why it is open which drum is meant */
  | { code: 'several-heard' };

/** The first of a plan's holds by itself: the big display has room for one. */
export type Caution = 'patch' | 'hands' | 'stop-drummer' | 'move-warning' | 'phantom' | 'house-rules';

interface Beside {
  action: AdviceAction;
  sureness: Sureness;
  notes: Note[];
  cautions: Caution[];
}

/** Something is known: whole alternatives, and the one to take. */
export interface AnswerPlan extends Beside {
  type: 'answer';
  /** null: no arrival, the sum alone answers */
  gap: Gap | null;
  /** why there is no arrival; null: there is one */
  missing: { reason: Reason; hopeless: boolean } | null;
  /** as the inputs carry it, what the meter's own invert does taken out; the recommended one first */
  alternatives: Alternative[];
  recommended: Alternative;
  /** a person chose `recommended` from the alternatives */
  chosen: boolean;
  /** B is turned over from what the meter shows: with the meter's own invert on, that isn't what is pressed */
  flip: boolean;
  /** where the gains are told, Hz; null: the hits carry no low octave */
  lowOctaveHz: [lowHz: number, highHz: number] | null;
  /** nothing is to be done, and nothing contradicts that */
  fine: boolean;
  /** null: a move says it or isn't worth it, or there is no arrival */
  distance: Distance | null;
  /** the drum that a move is for, where the two hear several; null: it needn't be told */
  forDrum: number | null;
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

/** Neither an arrival nor a sum. */
export interface NoAnswerPlan extends Beside {
  type: 'no-answer';
  reason: Reason;
  /** as many hits as can be asked for were made */
  hopeless: boolean;
}

export interface FixInputPlan extends Beside {
  type: 'fix-input';
  reason: Reason;
  /** turning a gain down is all it takes */
  overloaded: boolean;
}

export type Plan = AnswerPlan | FarPlan | FollowingPlan | HitMorePlan | NoAnswerPlan | FixInputPlan;

/** What is to be done, in figures. */
export interface PlanFigures {
  action: AdviceAction;
  moveCm: number | null;
  delayLaterMs: number | null;
  /** what it gains */
  lowDb: number | null;
  allDb: number | null;
  /** nothing is to be done, and nothing contradicts that */
  fine: boolean;
  /** an arrival is behind it, not the sum alone */
  timed: boolean;
  /** a person chose it */
  chosen: boolean;
}

const NO_FIGURES = {
  moveCm: null,
  delayLaterMs: null,
  lowDb: null,
  allDb: null,
  fine: false,
  timed: false,
  chosen: false,
} as const;

export function figuresOf(plan: Plan): PlanFigures {
  const { action } = plan;
  if (plan.type !== 'answer') return { ...NO_FIGURES, action };
  const { moveCm, delayMs, lowDb, allDb } = plan.recommended;
  return {
    action,
    moveCm,
    delayLaterMs: delayMs,
    lowDb,
    allDb,
    fine: plan.fine,
    timed: plan.gap !== null,
    chosen: plan.chosen,
  };
}
