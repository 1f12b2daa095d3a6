/** What a lesson is: a bench to begin with, and steps that are done when the bench itself shows it. Its words: ../words. */
import type { BenchFigures } from '../bench/figures';
import { figuresOf } from '../bench/figures';
import type { Bench, ControlId } from '../bench/model';

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
