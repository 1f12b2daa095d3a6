/** How far somebody is in a lesson. Pure: each call gives a new run, or the same one where nothing changed. */
import type { Bench } from './bench/model';
import { type LessonId, lookAt } from './lessons/lesson';
import { LESSONS } from './lessons/lessons';

export type StepFate = 'open' | 'done' | 'skipped';

export interface LessonRun {
  lesson: LessonId;
  /** the step in hand; as many as there are steps: it is over */
  at: number;
  fates: readonly StepFate[];
  /** the bench as the step in hand began */
  from: Bench;
  /** the bench as it was looked at last */
  looked: Bench;
}

export function beginLesson(lesson: LessonId): LessonRun {
  const { steps, start } = LESSONS[lesson];
  return { lesson, at: 0, fates: steps.map(() => 'open'), from: start, looked: start };
}

export const isOver = ({ at, fates }: LessonRun): boolean => at >= fates.length;

/** What the bench shows now: the step in hand is done once its check has passed, and stays so. */
export function lookForDone(run: LessonRun, bench: Bench): LessonRun {
  const step = LESSONS[run.lesson].steps[run.at];
  if (!step || run.fates[run.at] !== 'open' || bench === run.looked) return run;
  const done = step.done(lookAt(bench), lookAt(run.from), lookAt(run.looked));
  return { ...run, looked: bench, fates: done ? run.fates.with(run.at, 'done') : run.fates };
}

/** On from a step that is done; one that is open keeps its place. */
export function nextStep(run: LessonRun, bench: Bench): LessonRun {
  return isOver(run) || run.fates[run.at] === 'open' ? run : { ...run, at: run.at + 1, from: bench, looked: bench };
}

/** The bench as the step in hand would have left it, for a skip. */
export const leftBy = ({ lesson, at }: LessonRun, bench: Bench): Bench =>
  LESSONS[lesson].steps[at]?.left?.(bench) ?? bench;

/** On from a step that is open, which is told as skipped from then on. */
export function skipStep(run: LessonRun, bench: Bench): LessonRun {
  if (isOver(run) || run.fates[run.at] !== 'open') return run;
  return { ...run, fates: run.fates.with(run.at, 'skipped'), at: run.at + 1, from: bench, looked: bench };
}
