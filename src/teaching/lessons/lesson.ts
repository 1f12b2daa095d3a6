/** What a lesson is: a bench to begin with, and steps that are done when the bench itself shows it. Its words: ../words. */
import { invert, moveMic } from '../bench/edits';
import { type BenchFigures, figuresOf } from '../bench/figures';
import type { Bench, ControlId, MicId } from '../bench/model';

export const LESSON_IDS = [
  'polarity-not-delay',
  'hidden-capsule',
  'top-and-bottom',
  'inside-outside-speaker',
  'both-sides-of-the-kick',
  'two-overheads',
  'three-to-one',
  'when-not-to',
] as const;
export type LessonId = (typeof LESSON_IDS)[number];

/** The bench and what follows from it. */
export interface Look {
  bench: Bench;
  figures: BenchFigures;
}

export interface Step {
  id: string;
  /**
   * Whether it was done: from what the bench shows now, what it showed when the step began, and what it showed before
   * the last change: who did something else first can still do what is asked. Looked at when a change is over, so what
   * a drag only passes through doesn't count.
   */
  done(now: Look, from: Look, before: Look): boolean;
  /** The bench as somebody leaves it who did the step: what a skip sets, so that the steps after it can be done. */
  left?(bench: Bench): Bench;
}

export interface Lesson {
  id: LessonId;
  start: Bench;
  /** what can be set beside the drawing meanwhile; the mics can always be moved */
  controls: readonly ControlId[];
  steps: readonly Step[];
}

export const lookAt = (bench: Bench): Look => ({ bench, figures: figuresOf(bench) });

/** How near counts as arrived together, cm and ms: 0.5 cm is 0.015 ms. */
export const NEAR_CM = 0.5;
export const NEAR_MS = 0.05;

export const together = ({ figures }: Look): boolean => Math.abs(figures.delayMs) <= NEAR_MS;

type Place = readonly [xCm: number, yCm: number];

/** The mics put where a step would have them. */
export const micsAt = (bench: Bench, a: Place, b: Place): Bench =>
  moveMic(moveMic(bench, 'a', { xCm: a[0], yCm: a[1] }), 'b', { xCm: b[0], yCm: b[1] });

/** Both pushes the same way, by a mic's switch. */
export const sameWay = (bench: Bench, mic: MicId): Bench =>
  figuresOf(bench).polarity === 'same' ? bench : invert(bench, mic);
