/** What a lesson says. */
export interface StepWords {
  /** what to do on the bench: one thing, and what to watch */
  todo: string;
  /** what was to be seen, once it is done */
  seen: string;
}

export interface Fact {
  text: string;
  /** where it comes from, in small print */
  source: string;
}

export interface LessonWords {
  title: string;
  /** by the step's id */
  steps: Readonly<Record<string, StepWords>>;
  /** the one sentence to take along */
  learned: string;
  facts: readonly Fact[];
}

export const HANDBOOK = 'Everest and Pohlmann, Master Handbook of Acoustics, chapter 10';
export const FROM_FORMULA = 'follows from the formula';
export const COMMON_PRACTICE = 'common practice, no source';
